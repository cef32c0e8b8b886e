// Solves the mixed-integer models in the files named on the command line (LP format) with HiGHS, a general solver, and
// prints for each its status and the value of its best solution.
import { readFileSync } from "node:fs";
import load from "highs";

const highs = await load();
const found = process.argv.slice(2).map((name) => {
  const s = highs.solve(readFileSync(name, "utf8"), { mip_rel_gap: 0 });
  return { status: s.Status, value: s.ObjectiveValue };
});
console.log(JSON.stringify(found));

// Reads the STEP file named on the command line with OpenCASCADE and prints, as one JSON
// object, for every solid: name, box in the room, enclosed volume, number of faces.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const occtimportjs = createRequire(import.meta.url)("occt-import-js");
const occt = await occtimportjs({ print: () => {}, printErr: () => {} });
const result = occt.ReadStepFile(new Uint8Array(readFileSync(process.argv[2])),
  { linearUnit: "millimeter", linearDeflectionType: "absolute_value", linearDeflection: 0.1, angularDeflection: 0.2 });
const meshes = (result.meshes ?? []).map((m) => {
  const p = m.attributes.position.array;
  const ix = m.index.array;
  const min = [Infinity, Infinity, Infinity], max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i++) {
    min[i % 3] = Math.min(min[i % 3], p[i]);
    max[i % 3] = Math.max(max[i % 3], p[i]);
  }
  let volume = 0;
  const o = min; // measured from a corner, for the sake of rounding
  for (let i = 0; i + 2 < ix.length; i += 3) {
    const [a, b, c] = [ix[i], ix[i + 1], ix[i + 2]].map((k) => [p[3 * k] - o[0], p[3 * k + 1] - o[1], p[3 * k + 2] - o[2]]);
    volume += (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
  }
  return { name: m.name, min, max, volume, faces: m.brep_faces.length };
});
console.log(JSON.stringify({ success: result.success, meshes }));

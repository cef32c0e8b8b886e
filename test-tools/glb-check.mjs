// Prints what an independent glTF validator says of the file named on the command line, as
// one JSON object: errors, warnings, and for every node its name and world matrix.
import { readFileSync } from "node:fs";
import validator from "gltf-validator";

const bytes = new Uint8Array(readFileSync(process.argv[2]));
const report = await validator.validateBytes(bytes);
const { numErrors, numWarnings, messages } = report.issues;
console.log(JSON.stringify({ errors: numErrors, warnings: numWarnings, messages: messages.slice(0, 10), info: report.info }));

// Reads every DXF file of the folder named on the command line with an independent reader and
// prints, as one JSON object by file name: version, layers, and the entities with their places.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import Parser from "dxf-parser";

const dir = process.argv[2];
const out = {};
for (const name of readdirSync(dir).filter((n) => n.endsWith(".dxf")).sort()) {
  const d = new Parser().parseSync(readFileSync(join(dir, name), "latin1"));
  out[name] = {
    version: d.header.$ACADVER,
    layers: Object.keys(d.tables.layer.layers),
    entities: d.entities.map((e) => ({
      type: e.type, layer: e.layer, center: e.center, radius: e.radius, closed: e.shape, text: e.text,
      vertices: e.vertices?.map((v) => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 })),
    })),
  };
}
console.log(JSON.stringify(out));

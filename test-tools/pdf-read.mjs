// Reads PDFs with an independent reader, pdf.js, and prints a list of JSON objects: what it warns of,
// title and language, the words of every page, where bookmarks and links lead, and fonts that are
// not embedded. "dead" lists links and bookmarks that lead nowhere.
import { readFileSync } from "node:fs";

const fresh = () => ({ warnings: [], errors: [], title: "", lang: "", version: "", pages: [], bookmarks: 0, links: 0, dead: [], fontsMissing: [] });
let out = fresh();
const say = (list) => (...text) => {
  const line = text.join(" ");
  if (!list.includes(line) && list.length < 20) list.push(line);
};
console.log = console.warn = (...text) => say(out.warnings)(...text);
// What the reader lacks for drawing on a screen does not concern the file.
const silent = /DOMMatrix|ImageData|Path2D|canvas|fake worker/i;

const { getDocument, VerbosityLevel } = await import("pdfjs-dist/legacy/build/pdf.mjs");
const fonts = `${new URL("node_modules/pdfjs-dist/standard_fonts/", import.meta.url).pathname}`;
async function read(path) {
  try {
    const doc = await getDocument({
      data: new Uint8Array(readFileSync(path)),
      stopAtErrors: true,
      verbosity: VerbosityLevel.WARNINGS,
      standardFontDataUrl: fonts,
      useSystemFonts: false,
    }).promise;
    const meta = await doc.getMetadata();
    out.title = meta.info.Title ?? "";
    out.lang = meta.info.Language ?? "";
    out.version = meta.info.PDFFormatVersion ?? "";

    const leads = async (dest, from) => {
      const at = typeof dest === "string" ? await doc.getDestination(dest) : dest;
      try {
        const index = typeof at[0] === "number" ? at[0] : await doc.getPageIndex(at[0]);
        if (index >= 0 && index < doc.numPages) return;
      } catch {
        // told below
      }
      out.dead.push(`${from} to ${JSON.stringify(dest)}`);
    };
    const walk = async (list) => {
      for (const item of list ?? []) {
        out.bookmarks++;
        await leads(item.dest, `bookmark ${item.title}`);
        await walk(item.items);
      }
    };
    await walk(await doc.getOutline());

    for (let n = 1; n <= doc.numPages; n++) {
      const page = await doc.getPage(n);
      const list = await page.getOperatorList();
      const text = await page.getTextContent();
      for (const name of new Set(text.items.map((i) => i.fontName))) {
        if (page.commonObjs.has(name) && page.commonObjs.get(name).missingFile) say(out.fontsMissing)(page.commonObjs.get(name).name);
      }
      for (const a of await page.getAnnotations()) {
        if (a.subtype !== "Link") continue;
        out.links++;
        if (!a.url) await leads(a.dest, `link on page ${n}`);
      }
      const [x0, y0, x1, y1] = page.view;
      out.pages.push({ width: x1 - x0, height: y1 - y0, operators: list.fnArray.length, text: text.items.map((i) => i.str + (i.hasEOL ? "\n" : "")).join(" ").replace(/\s+/g, " ") });
      page.cleanup();
    }
  } catch (e) {
    out.errors.push(`${e.name}: ${e.message}`);
  }
  out.warnings = out.warnings.filter((w) => !silent.test(w));
}

const all = [];
for (const path of process.argv.slice(2)) {
  out = fresh();
  await read(path);
  all.push(out);
}
process.stdout.write(JSON.stringify(all));

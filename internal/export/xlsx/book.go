package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
)

// style is how a cell is shown; the order is that of cellXfs in styles.
type style int

const (
	plain style = iota
	heading
	millimetres // 12.5
	fraction    // 30 1/4, as a tape shows it
	price
	whole
	long // words that wrap
	ratio
	sum // a price in bold
	strong
)

// cell is one cell: words, or a number, or a formula with the value that it has now.
type cell struct {
	style   style
	text    string
	number  string // as decimal digits; "" for none
	formula string
}

func words(s string) cell { return cell{text: s} }
func count(n int) cell    { return cell{style: whole, number: strconv.Itoa(n)} }
func float(f float64, s style) cell {
	return cell{style: s, number: strconv.FormatFloat(f, 'f', -1, 64)}
}

// table is one worksheet: a heading row that stays in sight and is printed on every page, then
// rows. Width is in characters.
type table struct {
	name  string
	head  []string
	width []float64
	rows  [][]cell
	foot  [][]cell // not part of what the filter sorts
}

const declaration = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

const main = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`

const styles = declaration + `<styleSheet ` + main + `>` +
	`<numFmts count="3"><numFmt numFmtId="164" formatCode="0.0##"/><numFmt numFmtId="165" formatCode="#,##0.00##"/><numFmt numFmtId="166" formatCode="# ??/??"/></numFmts>` +
	`<fonts count="2"><font><sz val="10"/><name val="Calibri"/><family val="2"/></font><font><b/><sz val="10"/><name val="Calibri"/><family val="2"/></font></fonts>` +
	`<fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor rgb="FFE6E6E6"/><bgColor indexed="64"/></patternFill></fill></fills>` +
	`<borders count="2"><border><left/><right/><top/><bottom/><diagonal/></border><border><left/><right/><top/><bottom style="thin"><color rgb="FF444444"/></bottom><diagonal/></border></borders>` +
	`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
	`<cellXfs count="10">` +
	`<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0" applyAlignment="1"><alignment vertical="top"/></xf>` +
	`<xf numFmtId="0" fontId="1" fillId="2" borderId="1" xfId="0" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1"><alignment vertical="bottom" wrapText="1"/></xf>` +
	`<xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf>` +
	`<xf numFmtId="166" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf>` +
	`<xf numFmtId="165" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf>` +
	`<xf numFmtId="1" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf>` +
	`<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0" applyAlignment="1"><alignment vertical="top" wrapText="1"/></xf>` +
	`<xf numFmtId="2" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf>` +
	`<xf numFmtId="165" fontId="1" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1"/>` +
	`<xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/>` +
	`</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`

// workbook gives the bytes of a workbook: Office Open XML, ECMA-376.
func workbook(tables []table) []byte {
	var types, sheets, names, rels strings.Builder
	for i, t := range tables {
		n := i + 1
		fmt.Fprintf(&types, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`, n)
		fmt.Fprintf(&sheets, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, esc(t.name), n, n)
		fmt.Fprintf(&names, `<definedName name="_xlnm.Print_Titles" localSheetId="%d">'%s'!$1:$1</definedName>`, i, esc(t.name))
		fmt.Fprintf(&rels, `<Relationship Id="rId%d" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet%d.xml"/>`, n, n)
	}
	fmt.Fprintf(&rels, `<Relationship Id="rId%d" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/>`, len(tables)+1)

	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	put := func(name, body string) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate}) // no time: the same bytes each day
		if err == nil {
			_, err = w.Write([]byte(body))
		}
		if err != nil {
			panic("xlsx: " + err.Error()) // a buffer takes everything
		}
	}
	put("[Content_Types].xml", declaration+`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>`+types.String()+`</Types>`)
	put("_rels/.rels", declaration+`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`)
	put("xl/workbook.xml", declaration+`<workbook `+main+` xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets>`+sheets.String()+`</sheets><definedNames>`+names.String()+`</definedNames></workbook>`)
	put("xl/_rels/workbook.xml.rels", declaration+`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`+rels.String()+`</Relationships>`)
	put("xl/styles.xml", styles)
	for i, t := range tables {
		put(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), t.xml(i == 0))
	}
	if err := z.Close(); err != nil {
		panic("xlsx: " + err.Error())
	}
	return buf.Bytes()
}

func (t *table) xml(first bool) string {
	var b strings.Builder
	b.WriteString(declaration + `<worksheet ` + main + `><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`)
	tab := ""
	if first {
		tab = ` tabSelected="1"`
	}
	fmt.Fprintf(&b, `<dimension ref="A1:%s%d"/><sheetViews><sheetView%s workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><cols>`, column(len(t.head)-1), 1+len(t.rows)+len(t.foot), tab)
	for i, w := range t.width {
		fmt.Fprintf(&b, `<col min="%d" max="%d" width="%s" customWidth="1"/>`, i+1, i+1, strconv.FormatFloat(w, 'f', -1, 64))
	}
	b.WriteString(`</cols><sheetData>`)
	var head []cell
	for _, h := range t.head {
		head = append(head, cell{style: heading, text: h})
	}
	row := 1
	for _, group := range [][][]cell{{head}, t.rows, t.foot} {
		for _, cells := range group {
			fmt.Fprintf(&b, `<row r="%d">`, row)
			for i, c := range cells {
				c.xml(&b, column(i)+strconv.Itoa(row))
			}
			b.WriteString(`</row>`)
			row++
		}
	}
	fmt.Fprintf(&b, `</sheetData><autoFilter ref="A1:%s%d"/><pageMargins left="0.5" right="0.4" top="0.5" bottom="0.5" header="0.3" footer="0.3"/><pageSetup orientation="landscape" fitToWidth="1" fitToHeight="0"/></worksheet>`, column(len(t.head)-1), 1+len(t.rows))
	return b.String()
}

func (c cell) xml(b *strings.Builder, at string) {
	switch {
	case c.formula != "":
		fmt.Fprintf(b, `<c r="%s" s="%d"><f>%s</f><v>%s</v></c>`, at, c.style, esc(c.formula), c.number)
	case c.number != "":
		fmt.Fprintf(b, `<c r="%s" s="%d"><v>%s</v></c>`, at, c.style, c.number)
	case c.text != "":
		fmt.Fprintf(b, `<c r="%s" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, at, c.style, esc(c.text))
	}
}

// column names a column: A, B ... Z, AA.
func column(i int) string {
	s := ""
	for n := i; ; n = n/26 - 1 {
		s = string(rune('A'+n%26)) + s
		if n < 26 {
			return s
		}
	}
}

func esc(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a Builder never fails; what XML cannot hold becomes U+FFFD
	return b.String()
}

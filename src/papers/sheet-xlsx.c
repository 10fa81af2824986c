/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a table as a workbook of one sheet (ECMA-376): text as inline strings, numbers as numbers,
 * nothing as a formula. Knows cells only; the archive is zip.c's. */
#include <string.h>

#include "papers/sheet-files.h"
#include "papers/zip.h"

#define XML  "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n"
#define MAIN "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
#define PACK "http://schemas.openxmlformats.org/package/2006"
#define DOC  "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
#define TYPE "application/vnd.openxmlformats-officedocument.spreadsheetml."

static const char types[] =
    XML "<Types xmlns=\"" PACK "/content-types\">"
        "<Default Extension=\"rels\" "
        "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
        "<Default Extension=\"xml\" ContentType=\"application/xml\"/>"
        "<Override PartName=\"/xl/workbook.xml\" ContentType=\"" TYPE "sheet.main+xml\"/>"
        "<Override PartName=\"/xl/worksheets/sheet1.xml\" ContentType=\"" TYPE "worksheet+xml\"/>"
        "<Override PartName=\"/xl/styles.xml\" ContentType=\"" TYPE "styles+xml\"/></Types>";

static const char root_links[] =
    XML "<Relationships xmlns=\"" PACK "/relationships\"><Relationship Id=\"rId1\" Type=\"" DOC
        "/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>";

static const char book_links[] =
    XML "<Relationships xmlns=\"" PACK "/relationships\"><Relationship Id=\"rId1\" Type=\"" DOC
        "/worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"rId2\" Type=\"" DOC
        "/styles\" Target=\"styles.xml\"/></Relationships>";

/* Style 0 as usual, style 1 bold for headings. */
static const char styles[] =
    XML "<styleSheet xmlns=\"" MAIN "\"><fonts count=\"2\"><font><sz val=\"11\"/>"
        "<name val=\"Sans\"/></font><font><b/><sz val=\"11\"/><name val=\"Sans\"/></font></fonts>"
        "<fills count=\"2\"><fill><patternFill patternType=\"none\"/></fill>"
        "<fill><patternFill patternType=\"gray125\"/></fill></fills>"
        "<borders count=\"1\"><border/></borders>"
        "<cellStyleXfs count=\"1\"><xf/></cellStyleXfs>"
        "<cellXfs count=\"2\"><xf/><xf fontId=\"1\" applyFont=\"1\"/></cellXfs>"
        "<cellStyles count=\"1\"><cellStyle name=\"Normal\" xfId=\"0\" builtinId=\"0\"/>"
        "</cellStyles></styleSheet>";

/* Escaped; what XML 1.0 cannot hold is left out. */
static void
add_escaped (GString *out, const char *text)
{
  for (; *text; text = g_utf8_next_char (text)) {
    gunichar c = g_utf8_get_char (text);
    if (c == '&')
      g_string_append (out, "&amp;");
    else if (c == '<')
      g_string_append (out, "&lt;");
    else if (c == '>')
      g_string_append (out, "&gt;");
    else if (c == '"')
      g_string_append (out, "&quot;");
    else if (c == '\r')
      g_string_append (out, "&#13;");
    else if ((c >= 0x20 || c == '\t' || c == '\n') && c != 0xfffe && c != 0xffff)
      g_string_append_unichar (out, c);
  }
}

/* "A", ..., "Z", "AA", ... */
static void
add_column (GString *out, guint column)
{
  if (column >= 26)
    add_column (out, column / 26 - 1);
  g_string_append_c (out, (char) ('A' + column % 26));
}

static void
add_cell (GString *out, const DryCell *cell, guint row, guint column)
{
  if (*cell->text == '\0')
    return;
  g_string_append (out, "<c r=\"");
  add_column (out, column);
  g_string_append_printf (out, "%u\"%s", row + 1, row == 0 ? " s=\"1\"" : "");
  if (cell->number)
    g_string_append_printf (out, "><v>%s</v></c>", cell->text);
  else {
    g_string_append (out, " t=\"inlineStr\"><is><t xml:space=\"preserve\">");
    add_escaped (out, cell->text);
    g_string_append (out, "</t></is></c>");
  }
}

static char *
make_sheet (const DryRows *self)
{
  GString *out = g_string_new (XML "<worksheet xmlns=\"" MAIN "\"><sheetViews><sheetView "
                                   "workbookViewId=\"0\"><pane ySplit=\"1\" topLeftCell=\"A2\" "
                                   "activePane=\"bottomLeft\" state=\"frozen\"/></sheetView>"
                                   "</sheetViews><sheetData>");

  for (guint i = 0; i < self->rows->len; i++) {
    const GArray *row = self->rows->pdata[i];
    g_string_append_printf (out, "<row r=\"%u\">", i + 1);
    for (guint j = 0; j < row->len; j++)
      add_cell (out, &g_array_index (row, DryCell, j), i, j);
    g_string_append (out, "</row>");
  }
  g_string_append (out, "</sheetData></worksheet>");
  return g_string_free (out, FALSE);
}

static char *
make_book (const char *sheet)
{
  GString *out =
      g_string_new (XML "<workbook xmlns=\"" MAIN "\" xmlns:r=\"" DOC "\"><sheets><sheet name=\"");

  add_escaped (out, sheet);
  g_string_append (out, "\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>");
  return g_string_free (out, FALSE);
}

GBytes *
dry_rows_to_xlsx (const DryRows *self, const char *sheet)
{
  DryZipWriter *zip = dry_zip_writer_new ();
  g_autofree char *data = make_sheet (self), *book = make_book (sheet);

  dry_zip_writer_add (zip, "[Content_Types].xml", types);
  dry_zip_writer_add (zip, "_rels/.rels", root_links);
  dry_zip_writer_add (zip, "xl/workbook.xml", book);
  dry_zip_writer_add (zip, "xl/_rels/workbook.xml.rels", book_links);
  dry_zip_writer_add (zip, "xl/styles.xml", styles);
  dry_zip_writer_add (zip, "xl/worksheets/sheet1.xml", data);
  return dry_zip_writer_finish (zip);
}

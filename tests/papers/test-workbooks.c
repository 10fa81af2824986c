/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Workbooks as other programs write them, put together part by part: what is read of each, and what
 * is refused with which words. Knows only the format ECMA-376 gives. */
#include <string.h>

#include "base/error.h"
#include "papers/sheet-files.h"
#include "papers/zip.h"

#define BOOK        "<workbook><sheets><sheet name='A' sheetId='1' r:id='rId1'/></sheets></workbook>"
#define LINKS       "<Relationships><Relationship Id='rId1' Target='worksheets/a.xml'/></Relationships>"
#define SHEET(rows) "<worksheet><sheetData>" rows "</sheetData></worksheet>"

typedef struct {
  const char *book, *links, *strings, *path, *sheet; /* NULL: not in the archive */
} Parts;

static GBytes *
pack (const Parts *parts)
{
  const char *const names[] = {"xl/workbook.xml", "xl/_rels/workbook.xml.rels",
                               "xl/sharedStrings.xml", parts->path};
  const char *const texts[] = {parts->book, parts->links, parts->strings, parts->sheet};
  DryZipWriter *zip = dry_zip_writer_new ();

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (texts[i])
      dry_zip_writer_add (zip, names[i], texts[i]);
  return dry_zip_writer_finish (zip);
}

static DryRows *
read_parts (const Parts *parts, GError **error)
{
  g_autoptr (GBytes) bytes = pack (parts);
  gsize length;
  gconstpointer data = g_bytes_get_data (bytes, &length);

  return dry_rows_from_xlsx (data, length, error);
}

/* The rows as "a|b\nc". */
static char *
write_rows (const DryRows *rows)
{
  GString *out = g_string_new (NULL);

  for (guint r = 0; r < rows->rows->len; r++) {
    const GArray *row = g_ptr_array_index (rows->rows, r);

    g_string_append (out, r ? "\n" : "");
    for (guint c = 0; c < row->len; c++) {
      const char *text = dry_rows_get (rows, r, c);
      g_string_append_printf (out, "%s%s", c ? "|" : "", text ? text : "");
    }
  }
  return g_string_free (out, FALSE);
}

/* --- cells --- */

static void
test_cells (void)
{
  static const struct {
    const char *what, *strings, *sheet, *rows;
  } cases[] = {
      {"numbers keep their digits", NULL,
       SHEET ("<row r='1'><c r='A1'><v>1.50</v></c><c r='B1'><v>2</v></c></row>"), "1.50|2"},
      {"cells and rows without a place come one after another", NULL,
       SHEET ("<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>"), "1|2\n3"},
      {"cells and rows may be left out", NULL,
       SHEET ("<row r='1'><c r='A1'><v>1</v></c></row><row r='3'><c r='C3'><v>2</v></c></row>"),
       "1\n\n||2"},
      {"after a place the next goes on from there", NULL,
       SHEET ("<row><c r='B1'><v>1</v></c><c><v>2</v></c></row>"), "|1|2"},
      {"shared texts, runs joined, readings left out",
       "<sst><si><t>one</t></si><si><r><t>t</t></r><r><t>wo</t></r><rPh><t>x</t></rPh></si></sst>",
       SHEET ("<row><c t='s'><v>1</v></c><c t='s'><v>0</v></c></row>"), "two|one"},
      {"texts in the cell, runs joined, readings left out", NULL,
       SHEET ("<row><c t='inlineStr'><is><r><t>o</t></r><r><t>ne</t></r>"
              "<rPh><t>x</t></rPh></is></c></row>"),
       "one"},
      {"a formula's result as it was saved", NULL,
       SHEET ("<row><c t='str'><f>A2&amp;B2</f><v>sum</v></c></row>"), "sum"},
      {"an empty cell", NULL, SHEET ("<row><c r='A1'/><c r='B1'><v>1</v></c></row>"), "|1"},
      {"entities and names with a prefix", NULL,
       "<x:worksheet xmlns:x='u'><x:row><x:c><x:v>&lt;&amp;&gt;</x:v></x:c></x:row></x:worksheet>",
       "<&>"},
      {"text between the cells is none", NULL, SHEET ("\n <row>\n <c> <v>1</v> </c>\n</row> "),
       "1"},
      {"a mark of the byte order before it", NULL,
       "\xef\xbb\xbf" SHEET ("<row><c><v>1</v></c></row>"), "1"},
      {"columns beyond Z", NULL, SHEET ("<row><c r='AA1'><v>1</v></c></row>"),
       "||||||||||||||||||||||||||1"},
      {"nothing", NULL, SHEET (""), ""},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const Parts parts = {BOOK, LINKS, cases[i].strings, "xl/worksheets/a.xml", cases[i].sheet};
    g_autoptr (GError) error = NULL;
    g_autoptr (DryRows) rows = read_parts (&parts, &error);
    g_autofree char *text = NULL;

    g_test_message ("%s", cases[i].what);
    g_assert_no_error (error);
    text = write_rows (rows);
    g_assert_cmpstr (text, ==, cases[i].rows);
  }
}

/* Damaged cells are refused with a word that says how. */
static void
test_bad_cells (void)
{
  static const struct {
    const char *sheet;
    gint code;
    const char *says;
  } cases[] = {
      {SHEET ("<row r='x'></row>"), DRY_ERROR_SYNTAX, "a row of the sheet has no number"},
      {SHEET ("<row r='0'></row>"), DRY_ERROR_SYNTAX, "a row of the sheet has no number"},
      {SHEET ("<row r='100001'></row>"), DRY_ERROR_LIMIT, "too many rows"},
      {SHEET ("<row><c r='1'><v>1</v></c></row>"), DRY_ERROR_SYNTAX, "a cell of the sheet has no"},
      {SHEET ("<c r='A1'><v>1</v></c>"), DRY_ERROR_SYNTAX, "a cell of the sheet has no place"},
      {SHEET ("<row><c r='ZZ1'><v>1</v></c></row>"), DRY_ERROR_LIMIT, "too many columns"},
      {SHEET ("<row><c r='ZZZZZZZZ1'><v>1</v></c></row>"), DRY_ERROR_LIMIT, "too many columns"},
      {SHEET ("<row><c r='B1'><v>1</v></c><c r='B1'><v>2</v></c></row>"), DRY_ERROR_SYNTAX,
       "two cells of the sheet have one place"},
      {SHEET ("<row><c t='s'><v>0</v></c></row>"), DRY_ERROR_SYNTAX, "names a text that is not"},
      {SHEET ("<row><c t='s'><v>x</v></c></row>"), DRY_ERROR_SYNTAX, "names a text that is not"},
      {SHEET ("<row><c t='s'/></row>"), DRY_ERROR_SYNTAX, "names a text that is not"},
      {"<worksheet><row><c><v>1", DRY_ERROR_SYNTAX, "the workbook is damaged"},
      {"<worksheet><row><c><v>1</c></row></worksheet>", DRY_ERROR_SYNTAX, "is damaged"},
      {"<worksheet>&own;</worksheet>", DRY_ERROR_SYNTAX, "is damaged"},
      {"", DRY_ERROR_SYNTAX, "is damaged"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const Parts parts = {BOOK, LINKS, NULL, "xl/worksheets/a.xml", cases[i].sheet};
    g_autoptr (GError) error = NULL;

    g_test_message ("%s", cases[i].sheet);
    g_assert_null (read_parts (&parts, &error));
    g_assert_error (error, DRY_ERROR, cases[i].code);
    g_assert_nonnull (strstr (error->message, cases[i].says));
  }
}

/* --- which sheet --- */

/* The first sheet is found by its link, whether that starts from the folder or from the top; where
 * there are no links it is the usual file. */
static void
test_links (void)
{
  static const struct {
    const char *what, *book, *links, *path;
  } cases[] = {
      {"from the folder", BOOK, LINKS, "xl/worksheets/a.xml"},
      {"from the top", BOOK,
       "<Relationships><Relationship Id='rId1' Target='/xl/other/b.xml'/></Relationships>",
       "xl/other/b.xml"},
      {"among others", BOOK,
       "<Relationships><Relationship Target='x'/><Relationship Id='rId1'/><Relationship Id='rId2' "
       "Target='y'/><Relationship Id='rId1' Target='c.xml'/><Relationship Id='rId1' "
       "Target='d.xml'/></Relationships>",
       "xl/c.xml"},
      {"the first of two sheets",
       "<workbook><sheet sheetId='1' r:id='rId1'/><sheet sheetId='2' r:id='rId2'/></workbook>",
       LINKS, "xl/worksheets/a.xml"},
      {"no links", BOOK, NULL, "xl/worksheets/sheet1.xml"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const Parts parts = {cases[i].book, cases[i].links, NULL, cases[i].path,
                         SHEET ("<row><c><v>1</v></c></row>")};
    g_autoptr (GError) error = NULL;
    g_autoptr (DryRows) rows = read_parts (&parts, &error);

    g_test_message ("%s", cases[i].what);
    g_assert_no_error (error);
    g_assert_cmpstr (dry_rows_get (rows, 0, 0), ==, "1");
  }
}

static void
test_no_workbook (void)
{
  static const struct {
    Parts parts;
    const char *says;
  } cases[] = {
      {{NULL, LINKS, NULL, "xl/worksheets/a.xml", SHEET ("")}, "no workbook with a sheet"},
      {{"<workbook/>", LINKS, NULL, "xl/worksheets/a.xml", SHEET ("")}, "no workbook with a sheet"},
      {{"<workbook><sheet sheetId='1' id='rId1'/></workbook>", LINKS, NULL, "xl/worksheets/a.xml",
        SHEET ("")},
       "no workbook with a sheet"},
      {{"<workbook>", LINKS, NULL, "xl/worksheets/a.xml", SHEET ("")}, "the workbook is damaged"},
      {{BOOK, "<x>", NULL, "xl/worksheets/a.xml", SHEET ("")}, "the workbook is damaged"},
      {{BOOK, LINKS, "<sst><si><t>a", "xl/worksheets/a.xml", SHEET ("")}, "is damaged"},
      {{BOOK, LINKS, NULL, "xl/worksheets/b.xml", SHEET ("")}, "first sheet is not in it"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (GError) error = NULL;

    g_assert_null (read_parts (&cases[i].parts, &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_SYNTAX);
    g_test_message ("%s", error->message);
    g_assert_nonnull (strstr (error->message, cases[i].says));
  }
}

/* --- the archive --- */

/* A file larger than what is asked for is refused before it is all unpacked; one that is not there
 * is no error. */
static void
test_archive (void)
{
  g_autofree char *large = g_strnfill (100000, 'a');
  const Parts parts = {"small", large, NULL, "x", NULL};
  g_autoptr (GBytes) bytes = pack (&parts), small = NULL, none = NULL, whole = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;
  gconstpointer data = g_bytes_get_data (bytes, &length);

  small = dry_zip_read (data, length, "xl/workbook.xml", 5, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (g_bytes_get_size (small), ==, 5);
  none = dry_zip_read (data, length, "xl/none.xml", 5, &error);
  g_assert_no_error (error);
  g_assert_null (none);
  g_assert_null (dry_zip_read (data, length, "xl/_rels/workbook.xml.rels", 99999, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
  g_clear_error (&error);
  whole = dry_zip_read (data, length, "xl/_rels/workbook.xml.rels", 100000, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (g_bytes_get_size (whole), ==, 100000);
}

/* What is no archive at all, or too short for one. */
static void
test_no_archive (void)
{
  static const gsize lengths[] = {0, 1, 21, 22, 400, 70000};
  g_autofree char *text = g_strnfill (70000, 'P');

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++) {
    g_autoptr (GError) error = NULL;

    g_assert_null (dry_rows_from_xlsx (text, lengths[i], &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_SYNTAX);
  }
}

/* Letters no file of XML may hold are left out, a lone carriage return is kept. */
static void
test_written (void)
{
  static const char *const texts[][2] = {{"a\rb", "a\rb"},
                                         {"a\x01"
                                          "b",
                                          "ab"},
                                         {"\xef\xbf\xbe", ""},
                                         {"a\tb\nc", "a\tb\nc"}};

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autoptr (DryRows) rows = dry_rows_new (), back = NULL;
    g_autoptr (GBytes) bytes = NULL;
    g_autoptr (GError) error = NULL;
    gsize length;
    gconstpointer data;

    dry_rows_begin (rows);
    for (guint c = 0; c < 30; c++)
      dry_rows_add_text (rows, texts[i][0]);
    bytes = dry_rows_to_xlsx (rows, "A");
    data = g_bytes_get_data (bytes, &length);
    back = dry_rows_from_xlsx (data, length, &error);
    g_assert_no_error (error);
    g_assert_cmpstr (dry_rows_get (back, 0, 0), ==, texts[i][1]);
    g_assert_cmpstr (dry_rows_get (back, 0, 29), ==, texts[i][1]);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/workbooks/cells", test_cells);
  g_test_add_func ("/workbooks/bad-cells", test_bad_cells);
  g_test_add_func ("/workbooks/links", test_links);
  g_test_add_func ("/workbooks/none", test_no_workbook);
  g_test_add_func ("/workbooks/archive", test_archive);
  g_test_add_func ("/workbooks/no-archive", test_no_archive);
  g_test_add_func ("/workbooks/written", test_written);
  return g_test_run ();
}

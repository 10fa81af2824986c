/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables as files: what goes out comes back, formulas are defused, damaged files are refused.
 * That other programs read them too is test-exports.py's. */
#include <string.h>

#include "base/error.h"
#include "papers/sheet-files.h"

/* Cells that have gone wrong somewhere before. */
static const char *const odd[] = {
    "",       "plain", "with, comma", "with; semicolon", "a \"quote\"",  "two\nlines", "=1+1",
    "+49 30", "-x",    "@SUM(A1)",    "\ttab",           "<b>&amp;</b>", "ä €  end ",  "'quoted",
    "'=kept", "1,5",   "\"",
};

static DryRows *
make (void)
{
  DryRows *rows = dry_rows_new ();

  dry_rows_begin (rows);
  dry_rows_add_text (rows, "Text");
  dry_rows_add_text (rows, "Number");
  dry_rows_add_text (rows, "Money");
  for (guint i = 0; i < G_N_ELEMENTS (odd); i++) {
    dry_rows_begin (rows);
    dry_rows_add_text (rows, odd[i]);
    dry_rows_add_number (rows, i / 8.0, 6);
    dry_rows_add_money (rows, (gint64) i * -12345);
  }
  return rows;
}

static void
check_same (const DryRows *back, char decimal)
{
  g_assert_cmpuint (back->rows->len, ==, G_N_ELEMENTS (odd) + 1);
  for (guint i = 0; i < G_N_ELEMENTS (odd); i++) {
    g_autofree char *number = g_strdup (dry_rows_get (back, i + 1, 1));
    g_assert_cmpstr (dry_rows_get (back, i + 1, 0), ==, odd[i]);
    g_strdelimit (number, ",", decimal == ',' ? '.' : ',');
    g_assert_cmpfloat (g_ascii_strtod (number, NULL), ==, i / 8.0);
  }
  g_assert_cmpstr (dry_rows_get (back, 3, 2), ==, decimal == ',' ? "-246,90" : "-246.90");
}

static void
test_csv (void)
{
  g_autoptr (DryRows) rows = make ();

  for (guint i = 0; i < 2; i++) {
    char decimal = ".,"[i];
    g_autofree char *text = dry_rows_to_csv (rows, decimal);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryRows) back = dry_rows_from_csv (text, strlen (text), &error);

    g_assert_no_error (error);
    check_same (back, decimal);
    g_assert_nonnull (strstr (text, "\r\n'=1+1"));
    g_assert_nonnull (strstr (text, "\r\n'@SUM"));
    g_assert_nonnull (strstr (text, decimal == ',' ? ";-246,90\r\n" : ",-246.90\r\n"));
  }
}

/* Tables as other programs write them, as "a|b/c": what parts the cells, how lines end, quotes. */
static void
test_foreign_csv (void)
{
  static const struct {
    const char *text, *rows;
    char decimal;
  } cases[] = {
      {"a,b\nc,d", "a|b/c|d", '.'},
      {"a;b,5;c\n", "a|b,5|c", ','},
      {"a\tb\tc,d\n", "a|b|c,d", '.'},
      {"a;b\tc\n", "a|b\tc", ','},       /* as many of both: the semicolon */
      {"a,b;c\n", "a|b;c", '.'},         /* as many of both: the comma */
      {"\"a;b;c\",d\n", "a;b;c|d", '.'}, /* what stands in quotes parts nothing */
      {"\"a\nb;c\";d\n", "a\nb;c|d", ','},
      {"a,b\rc,d\r", "a|b/c|d", '.'},
      {"a,b\r\nc,d\r\n", "a|b/c|d", '.'},
      {"\xef\xbb\xbf"
       "a,b\n",
       "a|b", '.'},
      {"\"say \"\"so\"\"\",\"\"\n", "say \"so\"|", '.'},
      {"\"a\"b,c\n", "ab|c", '.'},
      {"a,\n,b\n", "a|/|b", '.'},
      {"\"a\"", "a", '.'},
      {"a,", "a|", '.'},
      {"", "", '.'},
      {"\n", "", '.'},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (DryRows) rows = dry_rows_from_csv (cases[i].text, strlen (cases[i].text), &error);
    g_autoptr (GString) text = g_string_new (NULL);

    g_assert_no_error (error);
    for (guint r = 0; r < rows->rows->len; r++) {
      const GArray *row = g_ptr_array_index (rows->rows, r);

      for (guint c = 0; c < row->len; c++)
        g_string_append_printf (text, "%s%s", c ? "|" : r ? "/" : "", dry_rows_get (rows, r, c));
    }
    g_assert_cmpstr (text->str, ==, cases[i].rows);
    g_assert_cmpint (rows->decimal, ==, cases[i].decimal);
  }
}

/* More rows or bytes than anybody's table has are refused. */
static void
test_large_csv (void)
{
  g_autofree char *rows = g_strnfill (DRY_MAX_SHEET_ROWS + 1, '\n');
  g_autoptr (GError) error = NULL;
  g_autoptr (DryRows) most = dry_rows_from_csv (rows, DRY_MAX_SHEET_ROWS, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (most->rows->len, ==, DRY_MAX_SHEET_ROWS);
  g_assert_null (dry_rows_from_csv (rows, DRY_MAX_SHEET_ROWS + 1, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
  g_clear_error (&error);
  g_assert_null (dry_rows_from_csv (rows, (gsize) DRY_MAX_SHEET_BYTES + 1, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
}

static void
test_bad_csv (void)
{
  static const struct {
    const char *text, *says;
  } cases[] = {{"a,b\n\"open\n\n", "line 2: a quote is not closed"}, {"a,\xff\n", "not UTF-8"}};
  g_autoptr (GString) wide = g_string_new ("a");
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_assert_null (dry_rows_from_csv (cases[i].text, strlen (cases[i].text), &error));
    g_assert_nonnull (strstr (error->message, cases[i].says));
    g_clear_error (&error);
  }
  for (guint i = 0; i < 300; i++)
    g_string_append_c (wide, ',');
  g_assert_null (dry_rows_from_csv (wide->str, wide->len, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
}

static void
test_xlsx (void)
{
  g_autoptr (DryRows) rows = make ();
  g_autoptr (GBytes) bytes = dry_rows_to_xlsx (rows, "A & B"), again = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;
  gconstpointer data = g_bytes_get_data (bytes, &length);
  g_autoptr (DryRows) back = dry_rows_from_xlsx (data, length, &error);

  g_assert_no_error (error);
  check_same (back, '.');
  again = dry_rows_to_xlsx (rows, "A & B");
  g_assert_true (g_bytes_equal (bytes, again));
}

/* Cut off anywhere or with any byte turned, it is read or refused, never more. */
static void
test_damaged_xlsx (void)
{
  g_autoptr (DryRows) rows = make ();
  g_autoptr (GBytes) bytes = dry_rows_to_xlsx (rows, "Sheet");
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);
  guint refused = 0;

  for (gsize i = 0; i < length; i += 3) {
    g_autofree guint8 *bad = g_memdup2 (data, length);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryRows) cut = dry_rows_from_xlsx (bad, i, &error), turned = NULL;

    g_assert_null (cut);
    g_assert_nonnull (error);
    g_clear_error (&error);
    bad[i] ^= 0x55;
    turned = dry_rows_from_xlsx (bad, length, &error);
    g_assert_true ((turned == NULL) == (error != NULL));
    refused += turned == NULL;
  }
  g_assert_cmpuint (refused, >, length / 3 / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet-files/csv", test_csv);
  g_test_add_func ("/sheet-files/foreign-csv", test_foreign_csv);
  g_test_add_func ("/sheet-files/large-csv", test_large_csv);
  g_test_add_func ("/sheet-files/bad-csv", test_bad_csv);
  g_test_add_func ("/sheet-files/xlsx", test_xlsx);
  g_test_add_func ("/sheet-files/damaged-xlsx", test_damaged_xlsx);
  return g_test_run ();
}

/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Price books: JSON and tables say the same, and what is wrong is refused with its place.
 * Prices are invented. */
#include <string.h>

#include "base/error.h"
#include "catalog/price-book.h"
#include "support/fixtures.h"

static const char whole[] =
    "{\"format\": \"drybay-prices\", \"version\": 1, \"note\": \"invented\", \"id\": \"own\","
    " \"name\": \"=Own, \\\"firm\\\"\", \"currency\": \"EUR\", \"invented\": true,"
    " \"catalog_samples\": true, \"valid_from\": \"2026-01-01\", \"valid_to\": \"2026-12-31\","
    " \"labor\": {\"rate\": 5995, \"source\": \"own\", \"certainty\": \"invented\"},"
    " \"tasks\": [{\"task\": \"set-tile\", \"fixed_hours\": 0, \"hours_each\": 1.25, \"crew\": 2,"
    "  \"rate\": 6100, \"source\": \"own\", \"certainty\": \"common practice\"},"
    "  {\"task\": \"grout\", \"source\": \"own\", \"certainty\": \"memory\"}],"
    " \"prices\": [{\"id\": \"membrane\", \"system\": \"cement-liquid\", \"name\": \"-Film\","
    "  \"unit\": \"L\", \"pack\": 13.248941, \"pack_name\": \"pail\", \"price\": 18901,"
    "  \"supplier\": \"@yard\", \"valid_from\": \"2026-02-01\", \"valid_to\": \"2026-03-01\","
    "  \"source\": \"own\", \"certainty\": \"invented\"},"
    "  {\"id\": \"4x8\", \"unit\": \"pc\", \"pack\": 1, \"pack_name\": \"sheet\", \"price\": 1,"
    "  \"source\": \"own\", \"certainty\": \"invented\"}],"
    " \"waste\": [{\"group\": \"sheets\", \"percent\": 0, \"source\": \"a\", \"certainty\": "
    "\"memory\"}],"
    " \"delivery\": {\"price\": 0, \"free_from\": 10000, \"source\": \"a\", \"certainty\": "
    "\"memory\"},"
    " \"disposal\": {\"price_per_kg\": 12, \"minimum\": 500, \"tear_out_kg_per_m2\": 8.5,"
    "  \"source\": \"a\", \"certainty\": \"memory\"},"
    " \"hire\": [{\"id\": \"saw\", \"name\": \"Saw\", \"price_per_day\": 100,"
    "  \"tasks\": [\"set-tile\", \"grout\"], \"source\": \"a\", \"certainty\": \"memory\"}],"
    " \"markup\": {\"percent\": 12.5, \"source\": \"a\", \"certainty\": \"memory\"},"
    " \"tax\": {\"name\": \"VAT\", \"percent\": 19, \"on_labor\": true, \"source\": \"a\","
    "  \"certainty\": \"memory\"}}";

static const DryPriceBook *
read (DryArena *arena, const char *text)
{
  g_autoptr (GError) error = NULL;
  const DryPriceBook *book = dry_price_book_from_text (text, strlen (text), "test", arena, &error);

  g_assert_no_error (error);
  return book;
}

static void
check_round_trip (DryArena *arena, const DryPriceBook *book)
{
  g_autofree char *text = dry_price_book_to_text (book, NULL), *again = NULL, *back = NULL;
  g_autoptr (DryRows) rows = dry_price_book_to_rows (book);
  g_autoptr (GError) error = NULL;
  const DryPriceBook *tabled;

  again = dry_price_book_to_text (read (arena, text), NULL);
  g_assert_cmpstr (text, ==, again);
  tabled = dry_price_book_from_rows (rows, "table", arena, &error);
  g_assert_no_error (error);
  back = dry_price_book_to_text (tabled, NULL);
  g_assert_cmpstr (text, ==, back);
}

static void
test_round_trip (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryCatalog *catalog = dry_test_catalog ();

  check_round_trip (arena, read (arena, whole));
  g_assert_cmpuint (dry_catalog_get_n_price_books (catalog), >=, 1);
  for (guint i = 0; i < dry_catalog_get_n_price_books (catalog); i++)
    check_round_trip (arena, dry_catalog_get_price_book_at (catalog, i));
}

static void
test_values (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryPriceBook *book = read (arena, whole);

  g_assert_cmpint (book->rate, ==, 5995);
  g_assert_cmpfloat (dry_price_book_get_task (book, "set-tile")->each, ==, 1.25);
  g_assert_cmpfloat (dry_price_book_get_task (book, "grout")->each, ==, -1);
  g_assert_null (dry_price_book_get_task (book, "boards"));
  g_assert_cmpint (book->prices[0].price, ==, 18901);
  g_assert_cmpstr (book->prices[0].system, ==, "cement-liquid");
  g_assert_cmpint (book->delivery, ==, 0);
  g_assert_cmpstr (book->hire[0].tasks[1], ==, "grout");
  g_assert_true (book->tax_labor);
}

/* Every way to break it is refused, and the message says where. */
static void
test_refusals (void)
{
  static const struct {
    const char *from, *to, *says;
  } cases[] = {
      {"\"rate\": 5995", "\"rate\": 0", "labor.rate"},
      {"\"price\": 18901", "\"price\": 0", "prices[0].price"},
      {"\"price\": 18901", "\"price\": 1.5", "prices[0].price"},
      {"\"price\": 18901", "\"price\": -5", "prices[0].price"},
      {"\"pack\": 1,", "\"pack\": 0,", "prices[1].pack"},
      {"\"EUR\"", "\"euro\"", "currency"},
      {"2026-02-01", "1 Feb 2026", "prices[0].valid_from"},
      {"\"crew\": 2", "\"crew\": 0", "tasks[0].crew"},
      {"\"percent\": 12.5", "\"percent\": -1", "markup.percent"},
      {"\"supplier\"", "\"shop\"", "prices[0]"},
      {"\"tasks\": [\"set-tile\", \"grout\"]", "\"tasks\": []", "hire[0].tasks"},
      {"\"version\": 1", "\"version\": 2", "version"},
      {"\"certainty\": \"common practice\"", "\"certainty\": \"sure\"", "tasks[0].certainty"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (GString) text = g_string_new (whole);
    g_autoptr (GError) error = NULL;
    g_assert_cmpuint (g_string_replace (text, cases[i].from, cases[i].to, 1), ==, 1);
    g_assert_null (dry_price_book_from_text (text->str, text->len, "test", arena, &error));
    g_assert_nonnull (error);
    if (!strstr (error->message, cases[i].says))
      g_error ("“%s” does not say “%s”", error->message, cases[i].says);
  }
}

static void
set_cell (DryRows *rows, guint row, guint column, const char *text)
{
  DryCell *cell = &g_array_index ((GArray *) rows->rows->pdata[row], DryCell, column);

  g_free (cell->text);
  cell->text = g_strdup (text);
}

static void
test_bad_tables (void)
{
  /* row and column of the table of `whole`: 0 headings, 1 book, 2 labor, 3 and 4 tasks, 5 and 6
   * prices */
  static const struct {
    guint row, column;
    const char *text, *says;
  } cases[] = {
      {5, 7, "12.345", "row 6, Price: “12.345” is no price in hundredths"},
      {5, 7, "cheap", "row 6, Price: “cheap” is no number"},
      {5, 5, "1e999", "row 6, Pack: “1e999” is no number"},
      {6, 0, "prize", "row 7, Kind: “prize” is no kind of row"},
      {2, 0, "book", "row 3, Kind: “book” stands twice"},
      {0, 0, "Sort", "there is no column “Kind”"},
      {1, 1, "", "id"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (DryRows) rows = dry_price_book_to_rows (read (arena, whole));
    g_autoptr (GError) error = NULL;
    set_cell (rows, cases[i].row, cases[i].column, cases[i].text);
    g_assert_null (dry_price_book_from_rows (rows, "table", arena, &error));
    g_assert_nonnull (error);
    if (!strstr (error->message, cases[i].says))
      g_error ("“%s” does not say “%s”", error->message, cases[i].says);
  }
}

/* Spreadsheets make numbers of dates, and write decimals with a comma where that is the custom. */
static void
test_spreadsheet_habits (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryRows) rows = dry_price_book_to_rows (read (arena, whole));
  g_autoptr (GError) error = NULL;
  const DryPriceBook *book;

  rows->decimal = ',';
  set_cell (rows, 5, 5, "13,5");
  set_cell (rows, 5, 7, "189,01");
  set_cell (rows, 5, 9, "46023"); /* 2026-01-01 counted from 1899-12-30 */
  book = dry_price_book_from_rows (rows, "table", arena, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat (book->prices[0].pack, ==, 13.5);
  g_assert_cmpint (book->prices[0].price, ==, 18901);
  g_assert_cmpstr (book->prices[0].valid_from, ==, "2026-01-01");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/price-book/round-trip", test_round_trip);
  g_test_add_func ("/price-book/values", test_values);
  g_test_add_func ("/price-book/refusals", test_refusals);
  g_test_add_func ("/price-book/bad-tables", test_bad_tables);
  g_test_add_func ("/price-book/spreadsheet-habits", test_spreadsheet_habits);
  return g_test_run ();
}

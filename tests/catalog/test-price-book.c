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

/* What every book must have, and nothing else. */
static const char bare[] =
    "{\"format\": \"drybay-prices\", \"version\": 1, \"id\": \"bare\", \"name\": "
    "\"Bare\", \"currency\": \"USD\"}";

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
  check_round_trip (arena, read (arena, bare));
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

/* What a book leaves out is nothing, and not nought. */
static void
test_bare (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryPriceBook *book = read (arena, bare);
  g_autofree char *text = dry_price_book_to_text (book, NULL);
  g_autoptr (DryRows) rows = dry_price_book_to_rows (book);

  g_assert_cmpuint (rows->rows->len, ==, 2); /* the headings and the book */
  g_assert_cmpstr (dry_rows_get (rows, 1, 0), ==, "book");
  g_assert_cmpstr (dry_rows_get (rows, 1, 1), ==, "bare");
  g_assert_cmpstr (dry_rows_get (rows, 2, 0), ==, "");
  g_assert_cmpstr (dry_rows_get (rows, 1, 99), ==, "");
  g_assert_cmpint (book->delivery, ==, -1);
  g_assert_cmpint (book->disposal, ==, -1);
  g_assert_null (book->tax_name);
  g_assert_false (book->invented || book->samples);
  g_assert_null (strstr (text, "delivery"));
  g_assert_null (dry_price_book_get_waste (book, "sheets"));
  g_assert_null (dry_price_book_get_task (book, "grout"));
  g_assert_null (dry_price_book_get_task (NULL, "grout"));
  g_assert_null (dry_price_book_get_waste (NULL, "sheets"));
  g_assert_null (dry_price_book_get_waste (read (arena, whole), NULL));
  g_assert_null (dry_price_book_get_waste (read (arena, whole), "tiles"));
  g_assert_cmpfloat (dry_price_book_get_waste (read (arena, whole), "sheets")->percent, ==, 0);
}

/* The two words about where prices come from, each alone; and charges without their limits. */
static void
test_options (void)
{
  static const struct {
    const char *more, *key;
  } ROWS[] = {
      {"\"invented\": true", "invented"},
      {"\"catalog_samples\": true", "catalog_samples"},
      {"\"note\": \"n\"", "note"},
      {"\"delivery\": {\"price\": 500, \"source\": \"a\", \"certainty\": \"memory\"}", "delivery"},
      {"\"disposal\": {\"price_per_kg\": 5, \"source\": \"a\", \"certainty\": \"memory\"}",
       "disposal"},
      {"\"tax\": {\"name\": \"T\", \"percent\": 0, \"source\": \"a\", \"certainty\": \"memory\"}",
       "tax"},
  };
  static const char *const ALL[] = {
      "invented", "catalog_samples", "note",    "delivery", "disposal", "tax",
      "on_labor", "free_from",       "minimum", "tear_out", "labor\""};

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autofree char *with =
        g_strdup_printf ("%.*s, %s}", (int) strlen (bare) - 1, bare, ROWS[i].more);
    const DryPriceBook *book = read (arena, with);
    g_autofree char *text = dry_price_book_to_text (book, NULL);

    check_round_trip (arena, book);
    for (guint j = 0; j < G_N_ELEMENTS (ALL); j++)
      g_assert_cmpint (strstr (text, ALL[j]) != NULL, ==, g_str_equal (ALL[j], ROWS[i].key));
  }
}

/* Numbers and money as cells: no needless digits, and no more places than were asked for. */
static void
test_cells (void)
{
  static const struct {
    double value;
    gint decimals;
    const char *text;
  } NUMBERS[] = {{13.25, 3, "13.25"},         {13, 3, "13"},     {130, 0, "130"},
                 {0.126, 2, "0.13"},          {-2.5, 1, "-2.5"}, {2.5, -1, "2"},
                 {1.0 / 3, 99, "0.333333333"}};
  static const struct {
    gint64 hundredths;
    const char *text;
  } MONEY[] = {{0, "0.00"}, {5, "0.05"}, {18901, "189.01"}, {-5, "-0.05"}, {-18901, "-189.01"}};
  g_autoptr (DryRows) rows = dry_rows_new ();

  dry_rows_begin (rows);
  for (guint i = 0; i < G_N_ELEMENTS (NUMBERS); i++)
    dry_rows_add_number (rows, NUMBERS[i].value, NUMBERS[i].decimals);
  dry_rows_begin (rows);
  for (guint i = 0; i < G_N_ELEMENTS (MONEY); i++)
    dry_rows_add_money (rows, MONEY[i].hundredths);
  dry_rows_add_text (rows, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (NUMBERS); i++)
    g_assert_cmpstr (dry_rows_get (rows, 0, i), ==, NUMBERS[i].text);
  for (guint i = 0; i < G_N_ELEMENTS (MONEY); i++)
    g_assert_cmpstr (dry_rows_get (rows, 1, i), ==, MONEY[i].text);
  g_assert_cmpstr (dry_rows_get (rows, 1, G_N_ELEMENTS (MONEY)), ==, "");
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
      {"2026-02-01", "2026/02-01", "prices[0].valid_from"},
      {"2026-02-01", "2026-02/01", "prices[0].valid_from"},
      {"2026-02-01", "2026-02-0a", "prices[0].valid_from"},
      {"2026-02-01", "2026-02-011", "prices[0].valid_from"},
      {"\"2026-02-01\"", "20260201", "prices[0].valid_from"},
      {"2026-12-31", "31.12.2026", "valid_to"},
      {"\"EUR\"", "\"EURO\"", "currency"},
      {"\"EUR\"", "\"E1R\"", "currency"},
      {"\"EUR\"", "7", "currency"},
      {"\"waste\": [", "\"waste\": {}, \"wastes\": [", "wastes"},
      {"\"group\": \"sheets\"", "\"group\": \"Sheets\"", "waste[0].group"},
      {"\"id\": \"saw\"", "\"id\": 1", "hire[0].id"},
      {"\"price_per_kg\": 12", "\"price_per_kg\": -1", "disposal.price_per_kg"},
      {"\"free_from\": 10000", "\"free_from\": -1", "delivery.free_from"},
      {"\"percent\": 19", "\"percent\": 101", "tax.percent"},
      {"\"format\"", "\"form\"", "format"},
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
      {5, 7, "1e13", "row 6, Price: “1e13” is no price in hundredths"},
      {5, 7, "-1e13", "row 6, Price: “-1e13” is no price in hundredths"},
      {4, 11, "soon", "row 5, Fixed hours: “soon” is no number"},
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

/* Headings and kinds in any case and with blanks, rows without a kind, words parted by commas, and
 * columns that a table may leave out. */
static void
test_loose_tables (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryRows) rows = dry_price_book_to_rows (read (arena, whole));
  g_autoptr (DryRows) nothing = dry_rows_new ();
  g_autoptr (GError) error = NULL;
  const DryPriceBook *book;
  guint hire = 0, last = rows->rows->len;

  set_cell (rows, 0, 0, " KIND ");
  set_cell (rows, 1, 0, "Book");
  set_cell (rows, 0, 8, "Sold by"); /* the supplier's column is gone, a strange one there */
  for (guint i = 0; i < last; i++)
    if (g_str_equal (dry_rows_get (rows, i, 0), "hire"))
      hire = i;
  set_cell (rows, hire, 16, "grout, set-tile ");
  dry_rows_begin (rows);
  dry_rows_add_text (rows, "");
  dry_rows_add_text (rows, "left alone");
  dry_rows_begin (rows);
  book = dry_price_book_from_rows (rows, "table", arena, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (book->currency, ==, "EUR");
  g_assert_null (book->prices[0].supplier);
  g_assert_cmpstr (book->hire[0].tasks[0], ==, "grout");
  g_assert_cmpstr (book->hire[0].tasks[1], ==, "set-tile");
  g_assert_null (book->hire[0].tasks[2]);
  g_assert_null (dry_price_book_from_rows (nothing, "nothing", arena, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_SCHEMA);
  g_assert_true (g_str_has_prefix (error->message, "nothing: row 1:"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/price-book/round-trip", test_round_trip);
  g_test_add_func ("/price-book/values", test_values);
  g_test_add_func ("/price-book/bare", test_bare);
  g_test_add_func ("/price-book/options", test_options);
  g_test_add_func ("/price-book/cells", test_cells);
  g_test_add_func ("/price-book/refusals", test_refusals);
  g_test_add_func ("/price-book/bad-tables", test_bad_tables);
  g_test_add_func ("/price-book/spreadsheet-habits", test_spreadsheet_habits);
  g_test_add_func ("/price-book/loose-tables", test_loose_tables);
  return g_test_run ();
}

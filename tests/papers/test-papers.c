/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The papers as files: what they say (read back with pdftotext), how many pages, same bytes twice.
 * Paper sizes and CSV are checked here too. */
#include <fcntl.h>
#include <glib/gstdio.h>
#include <math.h>
#include <sys/stat.h>
#include <unistd.h>

#include "papers/output.h"
#include "papers/papers.h"
#include "papers/scale.h"
#include "project/file.h"
#include "support/fixtures.h"
#include "texts.h"

static char *folder;

static DryPlan *
make_plan (const char *system)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove (system);
  g_autoptr (GError) error = NULL;
  DryPlan *plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return plan;
}

static char *
write_papers (const DryPlan *plan, DryPaperSize paper, const char *name)
{
  char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  DryPaperOptions options = {.paper = paper, .date = "2026-03-14", .decimal = '.'};

  g_assert_true (dry_papers_write (&plan, 1, &options, path, &error));
  g_assert_no_error (error);
  return path;
}

static void
test_content (void)
{
  g_autoptr (DryPlan) plan = make_plan ("foam-bands");
  g_autofree char *path = write_papers (plan, DRY_PAPER_LETTER, "content.pdf");
  g_autofree char *text = dry_test_run ("pdftotext", "-layout", path);
  static const char *const words[] = {"Cautions",
                                      "Silica dust",
                                      "Scalding",
                                      "Safety glazing",
                                      "Lifting",
                                      "Plan",
                                      "Cut sheets",
                                      "Take-off",
                                      "Order of work",
                                      "2026-03-14",
                                      "1'-0\"",
                                      "Quantities and reminders, not permission",
                                      "29 CFR 1926.1153",
                                      "Sum of priced lines",
                                      "Source:",
                                      "Back wall",
                                      "HOLD"};

  if (!text) {
    g_test_skip ("pdftotext is not installed");
    return;
  }
  dry_test_collapse (text);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (!strstr (text, words[i]))
      g_test_fail_printf ("the papers do not say “%s”", words[i]);
  for (guint i = 0; i < plan->boards->n; i++)
    if (!strstr (text, plan->boards->items[i].mark))
      g_test_fail_printf ("board %s is nowhere on the papers", plan->boards->items[i].mark);
  for (guint i = 0; i < plan->takeoff->n; i++) {
    /* A long name wraps; its first word is on one line for certain. */
    g_auto (GStrv) parts = g_strsplit (plan->takeoff->lines[i].name, " ", 2);
    g_assert_nonnull (strstr (text, parts[0]));
  }
}

static void
test_cautions_by_year (void)
{
  static const struct {
    gint year;
    gboolean lead, asbestos;
  } cases[] = {{1977, TRUE, TRUE},  /* before 1978: 40 CFR 745 */
               {1978, FALSE, TRUE}, /* "pre-1978" */
               {1980, FALSE, TRUE}, /* up to 1980: 29 CFR 1926.1101 */
               {1981, FALSE, FALSE},
               {0, TRUE, TRUE}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) dated = NULL;
    g_autoptr (DryPlan) plan = NULL;
    g_autofree char *path = NULL, *text = NULL;
    DryJob job = *dry_project_get_job (project);

    job.year_built = cases[i].year;
    dated = dry_edit_set_job (project, &job, &error);
    plan = dry_plan_new (dated, dry_test_room (dated), dry_test_catalog (), NULL, &error);
    g_assert_no_error (error);
    path = write_papers (plan, DRY_PAPER_LETTER, "year.pdf");
    text = dry_test_run ("pdftotext", "-layout", path);
    if (!text) {
      g_test_skip ("pdftotext is not installed");
      return;
    }
    dry_test_collapse (text);
    g_assert_cmpint (strstr (text, "40 CFR 745") != NULL, ==, cases[i].lead);
    g_assert_cmpint (strstr (text, "29 CFR 1926.1101") != NULL, ==, cases[i].asbestos);
  }
}

static void
test_pages (void)
{
  g_autoptr (DryPlan) plan = make_plan ("cement-liquid");
  const DryPlan *plans[2] = {plan, plan};
  DryPaperOptions options = {.paper = DRY_PAPER_A4, .decimal = ','};
  g_autoptr (DryPapers) one = dry_papers_new (plans, 1, &options);
  g_autoptr (DryPapers) two = dry_papers_new (plans, 2, &options);
  g_autofree char *path = write_papers (plan, DRY_PAPER_A4, "pages.pdf");
  g_autofree char *info = dry_test_run ("pdfinfo", path, NULL);
  guint n = dry_papers_get_n_pages (one);

  /* Summary, plan, three faces, linings or not, cut sheets, take-off, order: eight at the least. */
  g_assert_cmpuint (n, >=, 8);
  g_assert_cmpuint (dry_papers_get_n_pages (two), ==, 2 * n);
  for (guint i = 0; i <= n; i++) {
    cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 595, 842);
    cairo_t *cr = cairo_create (surface);
    dry_papers_paint_page (one, i, cr);
    g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
    cairo_destroy (cr);
    cairo_surface_destroy (surface);
  }
  if (info) {
    g_autofree char *pages = g_strdup_printf ("Pages:           %u\n", n);
    g_assert_nonnull (strstr (info, pages));
    g_assert_nonnull (strstr (info, "Author:          Drybay"));
    g_assert_nonnull (strstr (info, "A4"));
    g_assert_nonnull (strstr (info, "Title:"));
  }
}

static void
test_water_page (void)
{
  g_autoptr (DryPlan) plan = make_plan ("foam-bands");
  g_autofree char *path = write_papers (plan, DRY_PAPER_LETTER, "water.pdf");
  g_autofree char *text = dry_test_run ("pdftotext", "-layout", path);

  g_assert_true (plan->water->n_paths > 0);
  if (!text) {
    g_test_skip ("pdftotext is not installed");
    return;
  }
  g_assert_nonnull (strstr (text, "Water's way"));
  g_assert_nonnull (strstr (text, plan->water->closed ? "Closed: every drop" : "Break: "));
}

/* The inspector's sheet: figures side by side with their citation, holds to sign, photographs. */
static void
test_inspection (void)
{
  static const char *const words[] = {"For the inspector",
                                      "What applies",
                                      "Required",
                                      "Planned",
                                      "Citation",
                                      "NEC 2011 404.4",
                                      "How long the flood test stands: 24 hours (UPC 2012 408.7.1",
                                      "It stands: 24 hours (UPC 2012 408.7.1",
                                      "Before the walls are covered",
                                      "Flood test",
                                      "Depth at start",
                                      "Depth at end",
                                      "Start, time",
                                      "End, time",
                                      "Signature",
                                      "Photographs",
                                      "Flood test at its start",
                                      "reminder, not permission"};
  g_autofree char *file = g_test_build_filename (G_TEST_DIST, "cases", "05-roll-in.drybay", NULL);
  g_autoptr (DryProject) project = dry_project_load (file, NULL);
  DryJob job = *dry_project_get_job (project);
  g_autoptr (DryProject) picked = NULL;
  g_autoptr (DryPlan) plan = NULL;
  g_autofree char *path = NULL, *text = NULL;

  job.rule_pack = (char *) "us-residential";
  job.choices = (char *) "flood-test=24-h";
  picked = dry_edit_set_job (project, &job, NULL);
  plan = dry_plan_new (picked, dry_test_room (picked), dry_test_catalog (), NULL, NULL);
  path = write_papers (plan, DRY_PAPER_LETTER, "inspection.pdf");
  text = dry_test_run ("pdftotext", "-layout", path);
  if (!text) {
    g_test_skip ("pdftotext is not installed");
    return;
  }
  dry_test_collapse (text);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (!strstr (text, words[i]))
      g_test_fail_printf ("the inspector's sheet does not say “%s”", words[i]);
}

static void
test_same_bytes (void)
{
  static const char *const endings[] = {"pdf", "svg", "png"};
  g_autoptr (DryPlan) plan = make_plan ("foam-sealant");
  g_autofree char *a = write_papers (plan, DRY_PAPER_LETTER, "a.pdf");
  g_autofree char *b = write_papers (plan, DRY_PAPER_LETTER, "b.pdf");
  g_autofree char *first = NULL, *second = NULL;
  gsize n, m;

  g_assert_true (g_file_get_contents (a, &first, &n, NULL));
  g_assert_true (g_file_get_contents (b, &second, &m, NULL));
  g_assert_cmpmem (first, n, second, m);
  for (guint i = 0; i < G_N_ELEMENTS (endings); i++) {
    char *bytes[2] = {NULL, NULL};
    gsize length[2];
    for (guint turn = 0; turn < 2; turn++) {
      g_autofree char *path = g_strdup_printf ("%s/d%u.%s", folder, turn, endings[i]);
      g_autoptr (GError) error = NULL;
      DryPaperOptions options = {.paper = DRY_PAPER_A3, .decimal = '.'};
      g_assert_true (dry_papers_write_drawing (plan, "board", &options, path, &error));
      g_assert_no_error (error);
      g_assert_true (g_file_get_contents (path, &bytes[turn], &length[turn], NULL));
    }
    g_assert_cmpmem (bytes[0], length[0], bytes[1], length[1]);
    g_assert_cmpuint (length[0], >, 1000);
    g_free (bytes[0]);
    g_free (bytes[1]);
  }
}

static void
test_refusals (void)
{
  g_autoptr (DryPlan) plan = make_plan ("foam-bands");
  DryPaperOptions options = {.paper = DRY_PAPER_A4, .decimal = '.'};
  static const struct {
    const char *name, *file;
    int code;
  } cases[] = {{"board", "x.dxf", DRY_ERROR_UNSUPPORTED},
               {"board", "svg", DRY_ERROR_UNSUPPORTED},
               {"roof", "x.svg", DRY_ERROR_UNSUPPORTED},
               {"board", "no-such-folder/x.svg", DRY_ERROR_FILE},
               {"board", "no-such-folder/x.PNG", DRY_ERROR_FILE},
               {"board", "no-such-folder/x.pdf", DRY_ERROR_FILE}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_build_filename (folder, cases[i].file, NULL);
    g_autoptr (GError) error = NULL;
    g_assert_false (dry_papers_write_drawing (plan, cases[i].name, &options, path, &error));
    g_assert_error (error, DRY_ERROR, cases[i].code);
  }
  {
    g_autoptr (GError) error = NULL;
    g_assert_false (dry_papers_write (NULL, 0, &options, "x.pdf", &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED);
  }
}

static void
test_paper (void)
{
  static const struct {
    const char *locale;
    DryPaperSize paper;
  } cases[] = {{"en_US.UTF-8", DRY_PAPER_LETTER}, /* probed: en_US gives na_letter, de_DE iso_a4 */
               {"de_DE.UTF-8", DRY_PAPER_A4},
               {"fr_CA", DRY_PAPER_LETTER},
               {"es_MX@x", DRY_PAPER_LETTER},
               {"en_GB", DRY_PAPER_A4},
               {"C", DRY_PAPER_A4},
               {"", DRY_PAPER_A4},
               {NULL, DRY_PAPER_A4},
               {"de", DRY_PAPER_A4},
               {"en_", DRY_PAPER_A4},
               {"en_USA", DRY_PAPER_A4}};
  DryPaperSize paper;
  double w, h;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (dry_paper_for_locale (cases[i].locale), ==, cases[i].paper);
  g_assert_true (dry_paper_from_text ("Tabloid", &paper));
  g_assert_cmpint (paper, ==, DRY_PAPER_TABLOID);
  g_assert_false (dry_paper_from_text ("a5", &paper));
  g_assert_false (dry_paper_from_text (NULL, &paper));
  dry_paper_size_mm (DRY_PAPER_LETTER, &w, &h);
  g_assert_cmpfloat (w, ==, 215.9);
  g_assert_cmpfloat (h, ==, 279.4);
}

static void
test_scales (void)
{
  static const struct {
    gboolean metric;
    double mm, room; /* of the world, on paper */
    double ratio;
    const char *text;
  } cases[] = {{TRUE, 2000, 100, 20, "1:20"},
               {TRUE, 2001, 100, 25, "1:25"},
               {TRUE, 80, 100, 1, "1:1"},
               {TRUE, 2e6, 100, 100000, "1:100000"},
               {FALSE, 1600, 100, 16, "3/4\" = 1'-0\" (1:16)"},
               {FALSE, 1601, 100, 24, "1/2\" = 1'-0\" (1:24)"},
               {FALSE, 9000, 100, 96, "1/8\" = 1'-0\" (1:96)"}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    double ratio = dry_scale_choose (cases[i].metric, (DryLength) cases[i].mm * DRY_MM, DRY_MM,
                                     cases[i].room, 100);
    g_autofree char *text = dry_scale_to_text (cases[i].metric, ratio);
    g_assert_cmpfloat (ratio, ==, cases[i].ratio);
    g_assert_cmpstr (text, ==, cases[i].text);
  }
}

static void
test_csv (void)
{
  static const char *const names[][2] = {{"plain", "plain"},
                                         {"=1+1", "'=1+1"},
                                         {"+x", "'+x"},
                                         {"-x", "'-x"},
                                         {"@x", "'@x"},
                                         {"\tx", "'\tx"},
                                         {"\rx", "\"'\rx\""},
                                         {"a,b", "\"a,b\""},
                                         {"1/2\" board", "\"1/2\"\" board\""},
                                         {"a\r\nb", "\"a\r\nb\""},
                                         {"=\"x\"", "\"'=\"\"x\"\"\""},
                                         {"", ""}};

  for (guint i = 0; i < G_N_ELEMENTS (names); i++) {
    DryTakeoffLine line = {.id = "id",
                           .group = "sheets",
                           .name = names[i][0],
                           .amount = -2.5,
                           .unit = "m",
                           .pack = 1,
                           .pack_name = "roll",
                           .packs = 3,
                           .price = 1205,
                           .cost = 3615,
                           .working = {"2 x 3", NULL, 0, {"by count", DRY_CERTAINTY_DERIVED}}};
    DryTakeoff takeoff = {.lines = &line, .n = 1};
    g_autofree char *csv = dry_takeoff_to_csv (&takeoff);
    g_autofree char *wanted =
        g_strdup_printf ("\r\nsheets,id,%s,-2.5,m,1,roll,3,12.05,36.15,2 x 3,by count,%s\r\n",
                         names[i][1], dry_certainty_to_text (DRY_CERTAINTY_DERIVED));
    g_assert_nonnull (strstr (csv, wanted));
    g_assert_true (g_str_has_prefix (csv, "Group,Id,Item,"));
  }
}

/* Every line ends in CR LF and has the same number of cells. */
static void
test_csv_shape (void)
{
  g_autoptr (DryPlan) plan = make_plan ("cement-liquid");
  g_autofree char *csv = dry_takeoff_to_csv (plan->takeoff);
  guint commas = 0, lines = 0, wanted = 0;
  gboolean quoted = FALSE;

  for (const char *c = csv; *c; c++) {
    if (*c == '"')
      quoted = !quoted;
    else if (*c == ',' && !quoted)
      commas++;
    else if (*c == '\n' && !quoted) {
      g_assert_true (c > csv && c[-1] == '\r');
      if (lines++ == 0)
        wanted = commas;
      g_assert_cmpuint (commas, ==, wanted);
      commas = 0;
    }
  }
  g_assert_false (quoted);
  g_assert_cmpuint (lines, ==, plan->takeoff->n + 1);
}

/* A fuller page than any: rows break over pages and carry their headings along. */
static void
test_long_tables (void)
{
  g_autoptr (DryPlan) plan = make_plan ("foam-bands");
  DryTakeoff takeoff = *plan->takeoff;
  const DryTakeoff *own = plan->takeoff;
  g_autofree DryTakeoffLine *lines = g_new0 (DryTakeoffLine, 300);
  g_autofree char *path = NULL, *text = NULL;
  guint heads = 0;

  for (guint i = 0; i < 300; i++)
    lines[i] = own->lines[i % own->n];
  takeoff.lines = lines;
  takeoff.n = 300;
  plan->takeoff = &takeoff;
  path = write_papers (plan, DRY_PAPER_A4, "long.pdf");
  plan->takeoff = own;
  text = dry_test_run ("pdftotext", "-layout", path);
  if (!text) {
    g_test_skip ("pdftotext is not installed");
    return;
  }
  for (const char *c = text; (c = strstr (c, "A pack")); c++)
    heads++;
  g_assert_cmpuint (heads, >=, 6);
}

/* A link stays a link, a pipe stays a pipe: what stands behind the name gets the bytes. */
static void
test_special_files (void)
{
  g_autofree char *target = g_build_filename (folder, "target.txt", NULL);
  g_autofree char *link = g_build_filename (folder, "link.txt", NULL);
  g_autofree char *fifo = g_build_filename (folder, "pipe", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  char got[8] = "";
  int reader;

  g_assert_true (g_file_set_contents (target, "old", -1, NULL));
  g_assert_cmpint (symlink (target, link), ==, 0);
  g_assert_true (dry_output_write (link, "new", 3, &error));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_get_contents (target, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "new");
  g_assert_cmpint (mkfifo (fifo, 0600), ==, 0);
  reader = open (fifo, O_RDONLY | O_NONBLOCK);
  g_assert_true (dry_output_write (fifo, "bytes", 5, &error));
  g_assert_no_error (error);
  g_assert_cmpint (read (reader, got, sizeof got), ==, 5);
  g_assert_cmpstr (got, ==, "bytes");
  close (reader);
  g_assert_false (dry_output_write (folder, "x", 1, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("drybay-papers-XXXXXX", NULL);
  g_test_add_func ("/papers/content", test_content);
  g_test_add_func ("/papers/cautions-by-year", test_cautions_by_year);
  g_test_add_func ("/papers/pages", test_pages);
  g_test_add_func ("/papers/water", test_water_page);
  g_test_add_func ("/papers/inspection", test_inspection);
  g_test_add_func ("/papers/same-bytes", test_same_bytes);
  g_test_add_func ("/papers/refusals", test_refusals);
  g_test_add_func ("/papers/special-files", test_special_files);
  g_test_add_func ("/papers/paper", test_paper);
  g_test_add_func ("/papers/scales", test_scales);
  g_test_add_func ("/papers/csv", test_csv);
  g_test_add_func ("/papers/csv-shape", test_csv_shape);
  g_test_add_func ("/papers/long-tables", test_long_tables);
  result = g_test_run ();
  {
    GDir *dir = g_dir_open (folder, 0, NULL);
    for (const char *name; dir && (name = g_dir_read_name (dir));) {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_unlink (path);
    }
    if (dir)
      g_dir_close (dir);
    g_rmdir (folder);
    g_free (folder);
  }
  return result;
}

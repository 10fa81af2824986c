/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every file of the corpus, and every shipped file, through the same entries libFuzzer calls: what
 * once broke a reader stays mended. Needs neither clang nor libFuzzer. */
#include <string.h>

#include "fuzz/entries.h"

static void
run_folder (const FuzzEntry *entry, const char *folder, const char *suffix, guint *n)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *file = g_build_filename (folder, name, NULL), *bytes = NULL;
    gsize length;

    if (!g_str_has_suffix (name, suffix) || g_file_test (file, G_FILE_TEST_IS_DIR))
      continue;
    g_test_message ("%s", file);
    g_assert_true (g_file_get_contents (file, &bytes, &length, NULL));
    entry->run ((const guint8 *) bytes, length);
    /* Cut short anywhere, too: a reader sees half a file after a crash of another program. */
    for (gsize cut = 0; cut < length; cut += length / 7 + 1)
      entry->run ((const guint8 *) bytes, cut);
    ++*n;
  }
}

static void
test_entry (gconstpointer data)
{
  static const struct {
    const char *entry, *folder, *suffix;
  } shipped[] = {
      {"project", "data/demo", ".drybay"}, {"project", "tests/cases", ".drybay"},
      {"json", "data/items", ".json"},     {"items", "data/items", ".json"},
      {"system", "data/systems", ".json"}, {"rules", "data/rules", ".json"},
      {"prices", "data/prices", ".json"},
  };
  const FuzzEntry *entry = data;
  g_autofree char *corpus =
      g_build_filename (DRY_FUZZ_ROOT, "tests/fuzz/corpus", entry->name, NULL);
  guint n = 0;

  run_folder (entry, corpus, "", &n);
  g_assert_cmpuint (n, >, 0);
  for (guint i = 0; i < G_N_ELEMENTS (shipped); i++)
    if (strcmp (shipped[i].entry, entry->name) == 0) {
      g_autofree char *folder = g_build_filename (DRY_FUZZ_ROOT, shipped[i].folder, NULL);
      guint before = n;

      run_folder (entry, folder, shipped[i].suffix, &n);
      g_assert_cmpuint (n, >, before);
    }
  g_test_message ("%u files", n);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (const FuzzEntry *entry = fuzz_entries; entry->name != NULL; entry++) {
    g_autofree char *path = g_strdup_printf ("/fuzz/%s", entry->name);

    g_test_add_data_func (path, entry, test_entry);
  }
  return g_test_run ();
}

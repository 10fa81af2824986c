/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables as files for spreadsheets: comma-separated values (RFC 4180) and XLSX (ECMA-376), written
 * and read. Knows cells, not what they mean; no file is opened here. */
#pragma once

#include "catalog/price-book.h"

/* What is read is refused beyond these. */
#define DRY_MAX_SHEET_BYTES   (64 * 1024 * 1024)
#define DRY_MAX_SHEET_ROWS    100000
#define DRY_MAX_SHEET_COLUMNS 256

/* `decimal` '.': cells apart by commas; ',': by semicolons, numbers with a comma, as spreadsheets
 * of such a locale expect. Text that a spreadsheet could take for a formula gets an apostrophe.
 * Free with g_free(). */
char *dry_rows_to_csv (const DryRows *self, char decimal) G_GNUC_WARN_UNUSED_RESULT;
/* Commas, semicolons or tabs: what the first line has most of. Apostrophes put there by the writer
 * are taken away. Errors: DRY_ERROR_SYNTAX with the line (an open quote, no UTF-8),
 * DRY_ERROR_LIMIT. */
DryRows *dry_rows_from_csv (const char *text, gsize length,
                            GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* A workbook of one sheet, the first row in bold; text is never a formula. The same rows give the
 * same bytes. */
GBytes *dry_rows_to_xlsx (const DryRows *self, const char *sheet) G_GNUC_WARN_UNUSED_RESULT;
/* The first sheet of a workbook. Errors: DRY_ERROR_SYNTAX (no workbook, or a damaged one),
 * DRY_ERROR_LIMIT. */
DryRows *dry_rows_from_xlsx (gconstpointer data, gsize length,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;

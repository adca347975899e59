/** From one field of a measuring sheet to the next, as Enter and a foot pedal go. */

export const AFTER_SHEET_ID = 'after-measuring-sheet'

/** The fields of the same sheet in their order: those in sight, and those in shut folds with a line still to be read. */
export function sheetFields(quantity: string): HTMLInputElement[] {
  const found = document.querySelectorAll<HTMLInputElement>(`input[data-measuring="${quantity}"]`)
  return [...found].filter((field) => shutFolds(field).every(({ dataset }) => dataset['due'] === 'true'))
}

/** After the last field the focus goes to what the sheet comes to; before the first it stays. */
export function stepFrom(field: HTMLInputElement, step: 1 | -1): void {
  const fields = sheetFields(field.dataset['measuring'] ?? '')
  const at = fields.indexOf(field)
  const next = fields[at + step]
  if (next !== undefined) {
    focusField(next)
    next.closest('li')?.scrollIntoView({ block: 'nearest' })
  } else if (step === 1) {
    document.getElementById(AFTER_SHEET_ID)?.focus()
  }
}

/** Opens the folds around a field, then gives it the focus. */
export function focusField(field: HTMLInputElement): void {
  for (const fold of shutFolds(field)) fold.open = true
  field.focus()
}

function shutFolds(field: HTMLElement): HTMLDetailsElement[] {
  const shut: HTMLDetailsElement[] = []
  for (
    let around = field.closest('details');
    around !== null;
    around = around.parentElement?.closest('details') ?? null
  )
    if (!around.open) shut.push(around)
  return shut
}

/** From one field of a measuring sheet to the next, as Enter and a foot pedal go. */

export const AFTER_SHEET_ID = 'after-measuring-sheet'

/** The fields of the same sheet that are unfolded, in their order. */
export function sheetFields(quantity: string): HTMLInputElement[] {
  const found = document.querySelectorAll<HTMLInputElement>(`input[data-measuring="${quantity}"]`)
  return [...found].filter((field) => field.checkVisibility())
}

/** After the last field the focus goes to what the sheet comes to; before the first it stays. */
export function stepFrom(field: HTMLInputElement, step: 1 | -1): void {
  const fields = sheetFields(field.dataset['measuring'] ?? '')
  const at = fields.indexOf(field)
  const next = fields[at + step]
  if (next !== undefined) {
    next.focus()
    next.closest('li')?.scrollIntoView({ block: 'nearest' })
  } else if (step === 1) {
    document.getElementById(AFTER_SHEET_ID)?.focus()
  }
}

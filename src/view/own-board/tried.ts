/** An edit from a field of the panel, and the kinds that a field offers. */
import { sayFault } from '../../base/index.ts'
import { applyEdit, type BoardEdit, partKinds } from '../../board/index.ts'
import { edit, type EditorStore } from './editorStore.ts'

/** Tries an edit; what is wrong with it is said at the field, not above the sheet. */
export function tried(editor: EditorStore, wish: BoardEdit): string | undefined {
  const result = applyEdit(editor.getState().session.board, wish)
  if (!result.ok) return result.faults.map(sayFault).slice(0, 1).join('')
  edit(editor, wish)
  return undefined
}

export const kindOptions = (
  ['core', 'memory', 'power-stage', 'controller', 'inductor', 'capacitor', 'connector', 'other'] as const
).map((value) => ({ value, words: partKinds[value].words[0] }))

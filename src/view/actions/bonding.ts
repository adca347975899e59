/** What holds a part beside its solder, as the board of the case has it: sheet, reach, plan and heat follow. */
import type { BoardModel, Part } from '../../board/index.ts'
import type { Desk } from '../stores/desk.ts'
import { descriptionOf } from '../stores/boardWords.ts'
import { editCase } from './edit.ts'

export type Bonding = Part['bonding']

/** The board inside the case changes, not the shop's own version of it; undo leads back. */
export function setBonding(desk: Desk, model: BoardModel, refs: readonly string[], bonding: Bonding): void {
  editCase(desk, (present) => {
    const description = descriptionOf(present, model)
    const parts = description.parts.map((part) => (refs.includes(part.ref) ? { ...part, bonding } : part))
    return { ...present, board: { inline: { ...description, parts } } }
  })
}

/** Changes to the hand-back; what is emptied is left out of the case again. */
import type { HandBack } from '../../../case/index.ts'
import type { Desk } from '../../stores/desk.ts'
import { editCase } from '../../actions/edit.ts'

export const editHandBack = (desk: Desk, change: Partial<HandBack>): void =>
  editCase(desk, (c) => ({ ...c, handBack: { ...c.handBack, ...change } }), `hand-back ${Object.keys(change).join()}`)

type Optional = 'on' | 'outcome' | 'minutes' | 'charged'

/** Takes out one of the fields that may be missing. */
export const clearHandBack = (desk: Desk, field: Optional): void =>
  editCase(
    desk,
    (c) => {
      const handBack = { ...c.handBack }
      delete handBack[field]
      return { ...c, handBack }
    },
    `hand-back ${field}`,
  )

export type UsedPart = HandBack['usedParts'][number]

export const changeUsedPart = (desk: Desk, index: number, change: Partial<UsedPart>): void =>
  editCase(
    desk,
    (c) => ({
      ...c,
      handBack: {
        ...c.handBack,
        usedParts: c.handBack.usedParts.map((part, i) => (i === index ? { ...part, ...change } : part)),
      },
    }),
    `used part ${index} ${Object.keys(change).join()}`,
  )

export const addUsedParts = (desk: Desk, parts: readonly UsedPart[]): void =>
  editCase(desk, (c) => ({ ...c, handBack: { ...c.handBack, usedParts: [...c.handBack.usedParts, ...parts] } }))

export const removeUsedPart = (desk: Desk, index: number): void =>
  editCase(desk, (c) => ({
    ...c,
    handBack: { ...c.handBack, usedParts: c.handBack.usedParts.filter((_, i) => i !== index) },
  }))

/** A sentence after what stands there already, on a line of its own. */
export const addLine = (text: string, line: string): string =>
  text.trim() === '' ? line : `${text.trimEnd()}\n${line}`

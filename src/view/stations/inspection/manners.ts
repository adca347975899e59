/** How an area can be painted, and by which tools: for the bar above the sheet and for the station. */
import { Brush, Circle, Lasso, type LucideIcon } from 'lucide-react'
import type { Painting, Tool } from '../../sheet/index.ts'

interface Manner {
  readonly icon: LucideIcon
  readonly words: string
  readonly help: string
}

export const manners = {
  circle: { icon: Circle, words: 'Circle', help: 'Press in the middle and pull.' },
  brush: { icon: Brush, words: 'Brush', help: 'Press and go along what you see.' },
  lasso: { icon: Lasso, words: 'Lasso', help: 'Press and go round it; it closes by itself.' },
} as const satisfies Record<Painting['manner'], Manner>

export const mannerNames = ['circle', 'brush', 'lasso'] as const satisfies readonly Painting['manner'][]

const PAINTS = new Set<Tool>(['residue', 'film', 'corrosion', 'clean'])

/** Whether the tool in the hand paints areas: only then is a manner of painting in use. */
export const paints = (tool: Tool): boolean => PAINTS.has(tool)

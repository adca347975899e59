/** How an area can be painted, in words. */
import { say } from '../../../base/index.ts'
import { Brush, Circle, Lasso, type LucideIcon } from 'lucide-react'
import type { Painting } from '../../sheet/index.ts'

interface Manner {
  readonly icon: LucideIcon
  readonly words: string
  readonly help: string
}

export const manners = {
  circle: { icon: Circle, words: say('Circle'), help: say('Press in the middle and pull.') },
  brush: { icon: Brush, words: say('Brush'), help: say('Press and go along what you see.') },
  lasso: { icon: Lasso, words: say('Lasso'), help: say('Press and go round it; it closes by itself.') },
} as const satisfies Record<Painting['manner'], Manner>

export const mannerNames = ['circle', 'brush', 'lasso'] as const satisfies readonly Painting['manner'][]

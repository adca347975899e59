/** The verdict of a line: its word beside a shape of its own. */
import {
  Check,
  ChevronDown,
  ChevronsDown,
  ChevronUp,
  Circle,
  CircleHelp,
  EqualNot,
  type LucideIcon,
  SquareX,
  Unlink,
  Waves,
} from 'lucide-react'
import type { Verdict, VerdictShape } from '../../../measure/index.ts'
import { type Figure, Figured } from '../../figures/index.ts'
import own from './measuring.module.css'

const shapes: Readonly<Record<VerdictShape, LucideIcon>> = {
  ring: Circle,
  cross: SquareX,
  'far-down': ChevronsDown,
  down: ChevronDown,
  tick: Check,
  up: ChevronUp,
  gap: Unlink,
  unequal: EqualNot,
  wave: Waves,
  question: CircleHelp,
}

interface VerdictMarkProps {
  readonly verdict: Verdict
  /** How it was come to. */
  readonly of: Figure
}

export function VerdictMark({ verdict, of }: VerdictMarkProps) {
  const Shape = shapes[verdict.shape]
  return (
    <span className={own.verdict} data-tone={verdict.tone} data-shape={verdict.shape}>
      <Shape size={16} aria-hidden="true" />
      <Figured of={of}>{verdict.word}</Figured>
    </span>
  )
}

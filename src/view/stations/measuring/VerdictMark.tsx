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
import type { Verdict, VerdictKind, VerdictShape } from '../../../measure/index.ts'
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

const tones: Readonly<Partial<Record<VerdictKind, 'bad' | 'good' | 'doubt'>>> = {
  short: 'bad',
  low: 'bad',
  below: 'bad',
  'unlike-low': 'bad',
  'no-voltage': 'bad',
  above: 'doubt',
  open: 'doubt',
  'unlike-high': 'doubt',
  unusual: 'doubt',
  'below-zero': 'doubt',
  'in-range': 'good',
  alike: 'good',
}

export function VerdictMark({ verdict }: { readonly verdict: Verdict }) {
  const Shape = shapes[verdict.shape]
  return (
    <span className={own.verdict} data-tone={tones[verdict.kind] ?? 'plain'} data-shape={verdict.shape}>
      <Shape size={16} aria-hidden="true" />
      {verdict.word}
    </span>
  )
}

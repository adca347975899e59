/** Lines of the measuring sheet as keys of maps, and as people name them. */
import { say } from '../base/index.ts'
import { stagePointWords } from './practice.ts'
import type { LineName } from './schema.ts'

/** `rail VMEM`, `stage S4 pwm`: one key for each line, the same for every quantity. */
export const lineKey = ({ kind, name, point }: LineName): string =>
  point === undefined ? `${kind} ${name}` : `${kind} ${name} ${point}`

/** `rail VMEM`: the key of a rail's own line. */
export const railKey = (name: string): string => lineKey({ kind: 'rail', name })

/** `VMEM`, `S4`, `before F1`: a line without its point. */
export const lineName = ({ kind, name }: LineName): string => {
  const fuse = kind === 'supply' ? BEFORE.exec(name)?.[1] : undefined
  return fuse === undefined ? name : say('before {fuse}', { fuse })
}

/** `VMEM`, `S4, PWM pin`. */
export const lineWords = (line: LineName): string =>
  line.point === undefined ? lineName(line) : `${lineName(line)}, ${stagePointWords(line.point)}`

/** A supply's line goes by its fuse, in each language alike. */
const BEFORE = /^before (.*)$/

/** `Rail VMEM`, `Stage S4, PWM pin`. */
export const lineWithKind = (line: LineName): string => `${KINDS[line.kind]} ${lineWords(line)}`

const KINDS: Readonly<Record<LineName['kind'], string>> = {
  rail: say('Rail'),
  supply: say('Supply'),
  stage: say('Stage'),
}

/** `liftmap picture CASE`: the sheet as SVG. */
import { say } from '../../base/index.ts'
import { drawSheet, OVERLAYS, type Overlay, substanceNames } from '../../case/index.ts'
import { EXIT, printFaults, WrongUsage, whenGood } from '../answer.ts'
import { assessCaseFile } from '../files.ts'
import type { Io } from '../io.ts'

/**
 * Prints one side as SVG or writes it to `out`. Refuses a side that is neither top nor bottom, and overlays that it
 * does not know. Returns the exit code.
 */
export async function runPicture(
  io: Io,
  file: string,
  options: { side: string; show: string; out?: string | undefined; force?: boolean | undefined },
): Promise<number> {
  const { side } = options
  if (side !== 'top' && side !== 'bottom')
    throw new WrongUsage(say('Found --side {side}, expected top or bottom.', { side }))
  const show = overlaysFrom(options.show)
  return await whenGood(io, await assessCaseFile(io, file), ({ caseFile, model, tally, assessment }) => {
    const { marks, substances, title } = caseFile
    const substanceName = substanceNames(substances)
    const svg = drawSheet({ model, side, show, marks, tally, assessment, title, substanceName })
    if (options.out === undefined) {
      io.out(svg)
      return EXIT.fine
    }
    const written = io.write(options.out, svg, { force: options.force === true, inputs: [file] })
    if (!written.ok) return printFaults(io, written.faults)
    io.err(
      side === 'top'
        ? say('Wrote the top side of {name} to {out}.\n', { name: model.name, out: options.out })
        : say('Wrote the bottom side of {name} to {out}.\n', { name: model.name, out: options.out }),
    )
    return EXIT.fine
  })
}

function overlaysFrom(words: string): Overlay[] {
  const wanted = words
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '')
  const unknown = wanted.filter((word) => !OVERLAYS.some((overlay) => overlay === word))
  if (unknown.length > 0)
    throw new WrongUsage(
      say('Found --show {unknown}, expected some of {OVERLAYS}.', {
        unknown: unknown.join(','),
        OVERLAYS: OVERLAYS.join(','),
      }),
    )
  return OVERLAYS.filter((overlay) => wanted.includes(overlay))
}

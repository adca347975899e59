/** `liftmap heat CASE REF`: the setting that lifts a part or puts it on again, and what else gets too hot. */
import { crackedFromWords, heatLines } from '../../heat/index.ts'
import { decimals, minutesWords, say } from '../../base/index.ts'
import type { z } from 'zod'
import { solveHeat } from '../../case/index.ts'
import { EXIT, printAnswer, printFaults, whenGood } from '../answer.ts'
import { openCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { heatOutput } from '../output.ts'
import { settingOf } from '../settings.ts'

type Heat = z.infer<typeof heatOutput>

/**
 * Prints setting, peaks in °C and times in s of one part's pass, the target first and then the hottest; settings are
 * null where no setting lifts it. Returns the exit code.
 */
export async function runHeat(
  io: Io,
  file: string,
  ref: string,
  options: { text?: boolean | undefined; refit?: boolean | undefined },
): Promise<number> {
  return await whenGood(io, await openCaseFile(io, file), ({ caseFile, model }) => {
    const purpose = options.refit === true ? 'refit' : 'lift'
    const solved = solveHeat(model, ref, purpose, caseFile)
    if (!solved.ok) return printFaults(io, solved.faults)
    const { run, minutes, joints, liftFromS, short, missing, cautions } = solved.value
    const parts = (run?.parts ?? []).map((part) => ({
      ref: part.ref,
      peakC: part.jointPeakC,
      bodyPeakC: part.bodyPeakC,
      aboveLiquidusS: part.aboveLiquidusS,
      melts: part.melts,
      mayCrack: part.mayCrack === true,
      overLimit: part.overLimit,
      remarks: [...part.remarks],
    }))
    const output: Heat = {
      target: ref,
      purpose,
      settings: settingOf(run?.setting),
      ...(joints === undefined ? {} : { joints: { ...joints } }),
      ...(liftFromS === undefined ? {} : { liftFromS }),
      ...(short === undefined ? {} : { short }),
      missing: [...missing],
      minutes,
      parts: parts.toSorted((a, b) => Number(b.ref === ref) - Number(a.ref === ref) || b.peakC - a.peakC),
      cautions: cautions.map(({ sentence }) => sentence),
    }
    printAnswer(io, heatOutput, output, options.text === true ? sayHeat : undefined)
    return EXIT.fine
  })
}

const SHOWN = 12

function sayHeat(heat: Heat): string {
  if (heat.settings === null) {
    return [
      heat.purpose === 'refit'
        ? say("{target} can't be put on again with this equipment:", { target: heat.target })
        : say("{target} can't be lifted with this equipment:", { target: heat.target }),
      ...heat.missing.map((line) => `  ${line}`),
    ].join('\n')
  }
  const [target, ...others] = heat.parts
  const hot = others.filter(({ ref, melts, mayCrack, overLimit }) => !isSmall(ref) && (melts || mayCrack || overLimit))
  const small = others.filter(({ ref, melts }) => isSmall(ref) && melts)
  return [
    say('{target}, {minutes} in all:', { target: heat.target, minutes: minutesWords(heat.minutes) }),
    ...heatLines({ ...heat, setting: heat.settings }).map((line) => `  ${line}`),
    ...(target === undefined ? [] : [say('  {target}, the target', { target: sayPart(target) })]),
    hot.length === 0
      ? say('No package beside it melts, passes its limit or gets so hot that its joints may crack.')
      : say('Beside it; treat these as molten, shield them, do not touch them while hot. {crackedFromWords}', {
          crackedFromWords,
        }),
    ...hot.slice(0, SHOWN).map((part) => `  ${sayPart(part)}`),
    ...(hot.length > SHOWN ? [say('  and {length} more, cooler', { length: hot.length - SHOWN })] : []),
    ...(small.length > 0
      ? [
          say(
            '  {length, plural, one {# small part} other {# small parts}} melt under the air and stay where they are if nothing touches them.',
            { length: small.length },
          ),
        ]
      : []),
    ...heat.cautions.map((caution) => say('Caution: {caution}', { caution })),
  ].join('\n')
}

/** Capacitors, resistors and the like, by their reference designators (IEEE 315 class letters). */
const isSmall = (ref: string): boolean => /^(C|R|FB|RN)\d/.test(ref)

function sayPart({ ref, peakC, bodyPeakC, aboveLiquidusS, melts, mayCrack, overLimit }: Heat['parts'][number]): string {
  const words = [
    say('{value} joints up to {peakC} °C', { value: ref.padEnd(6), peakC: decimals(peakC, 0) }),
    say('body {bodyPeakC} °C', { bodyPeakC: decimals(bodyPeakC, 0) }),
    ...(melts
      ? [say('melts, {aboveLiquidusS} s above liquidus', { aboveLiquidusS: decimals(aboveLiquidusS, 0) })]
      : []),
    ...(mayCrack ? [say('joints may crack')] : []),
    ...(overLimit ? [say('over its limit')] : []),
  ]
  return words.join(', ')
}

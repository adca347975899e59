/** `liftmap heat CASE REF`: the setting that melts a part's joints, and what else gets too hot. */
import type { z } from 'zod'
import { solveHeat } from '../../case/index.ts'
import { EXIT, printAnswer, printFaults, whenGood } from '../answer.ts'
import { openCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { heatOutput } from '../output.ts'
import { saySettings, settingOf } from '../settings.ts'

type Heat = z.infer<typeof heatOutput>

export async function runHeat(
  io: Io,
  file: string,
  ref: string,
  options: { text?: boolean | undefined },
): Promise<number> {
  return await whenGood(io, await openCaseFile(io, file), ({ caseFile, model }) => {
    const solved = solveHeat(model, ref, caseFile)
    if (!solved.ok) return printFaults(io, solved.faults)
    const { run, minutes, missing, cautions } = solved.value
    const parts = (run?.parts ?? []).map((part) => ({
      ref: part.ref,
      peakC: part.jointPeakC,
      bodyPeakC: part.bodyPeakC,
      aboveLiquidusS: part.aboveLiquidusS,
      melts: part.melts,
      overLimit: part.overLimit,
      remarks: [...part.remarks],
    }))
    const output: Heat = {
      target: ref,
      settings: settingOf(run?.setting),
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
  if (heat.settings === null)
    return [`${heat.target} can't be lifted with this equipment:`, ...heat.missing.map((line) => `  ${line}`)].join(
      '\n',
    )
  const rows = heat.parts.slice(0, SHOWN).map((part) => {
    const words = [part.melts ? 'melts' : '', part.overLimit ? 'over its limit' : '', ...part.remarks].filter(
      (word) => word !== '',
    )
    return `  ${part.ref.padEnd(6)} ${part.peakC.toFixed(0)} °C  ${words.join('; ')}`
  })
  return [
    `${heat.target}: ${saySettings(heat.settings)}`,
    ...rows,
    ...heat.cautions.map((caution) => `Caution: ${caution}`),
  ].join('\n')
}

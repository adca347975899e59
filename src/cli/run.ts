/** The verbs of the command line, their options and examples. Answers the exit code: 0 fine, 1 bad input, 2 wrong usage. */
import { languages, say } from '../base/index.ts'
import { Command, CommanderError, Option } from 'commander'
import { OVERLAYS } from '../case/index.ts'
import { EXIT, printFaults, WrongUsage } from './answer.ts'
import type { Io } from './io.ts'
import { runBoard } from './verbs/board.ts'
import { runCounts } from './verbs/counts.ts'
import { runHeat } from './verbs/heat.ts'
import { LEARN_HELP, type LearnOptions, runLearn } from './verbs/learn.ts'
import { runPicture } from './verbs/picture.ts'
import { runPlan } from './verbs/plan.ts'
import { runPower } from './verbs/power.ts'
import { runProof } from './verbs/proof.ts'
import { runReach } from './verbs/reach.ts'
import { type RecordOptions, runRecord } from './verbs/record.ts'
import { runSuspects } from './verbs/suspects.ts'
import { runTally, type TallyOptions } from './verbs/tally.ts'
import { runWhere } from './verbs/where.ts'

/** @param words the words after `liftmap` */
export async function runCommandLine(words: readonly string[], io: Io): Promise<number> {
  let code: number = EXIT.fine
  const program = buildProgram(io, (ended) => {
    code = ended
  })
  try {
    await program.parseAsync([...words], { from: 'user' })
    return code
  } catch (cause) {
    if (cause instanceof CommanderError) return cause.exitCode === 0 ? EXIT.fine : EXIT.wrongUsage
    if (cause instanceof WrongUsage) {
      io.err(`${cause.message}\n`)
      return EXIT.wrongUsage
    }
    return printFaults(io, [
      isReadFailure(cause)
        ? { path: 'input', found: cause.message, expected: say('a file that can be read to its end') }
        : { path: 'liftmap', found: unforeseen(cause), expected: say('an answer'), todo: UNFORESEEN },
    ])
  }
}

/** A mistake of the program's own: told in one line, without the places in the code that it came through. */
const unforeseen = (cause: unknown): string =>
  say('a mistake of the program ({value})', {
    value: cause instanceof Error ? cause.message.split('\n')[0]?.slice(0, 200) : typeof cause,
  })

const UNFORESEEN = say('Nothing was written. Please report it with the file, if you may share that.')

/** A disk or a pipe that failed while it was read: the machine's fault, told in its words. */
const isReadFailure = (cause: unknown): cause is Error => cause instanceof Error && 'syscall' in cause

function buildProgram(io: Io, end: (code: number) => void): Command {
  const program = new Command('liftmap')
    .description(
      say(
        'What an accident did to a board: addresses, reach of a spill, suspects, lift list. Prints JSON; faults go to standard error.',
      ),
    )
    .addOption(
      new Option(
        '--language <tag>',
        say('language of all sentences; names and numbers of the JSON stay as they are'),
      ).choices(languages),
    )
    .exitOverride()
    .configureOutput({ writeOut: io.out, writeErr: io.err })
    .showHelpAfterError(say('Add --help to see how it is called.'))
  const verb = (words: string, says: string, example: string): Command =>
    program
      .command(words)
      .description(says)
      .option('--text', say('lines for people in place of JSON'))
      .addHelpText('after', say('\nExample:\n  liftmap {example}', { example }))

  verb(
    'board <file...>',
    say(
      'check a board description, or make one from a layout (.kicad_pcb) or from data files of one board, packed or not',
    ),
    'board netlist.ipc places.csv --out card.json',
  )
    .option('--out <file>', say('write the board description there'))
    .option('--force', say('write over a file that is there already'))
    .action(async (files: string[], options: { out?: string; force?: boolean; text?: boolean }) =>
      end(await runBoard(io, files, options)),
    )
  verb(
    'where <board> <address...>',
    say('channel, part, row, bank and column of addresses (0x… or decimal; - reads one a line)'),
    'where boards/hitch-12.json 0x1f400 0x2000',
  ).action(async (board: string, addresses: string[], options: { text?: boolean }) =>
    end(await runWhere(io, board, addresses, options)),
  )
  program
    .command('learn <file>')
    .description(
      say('the address map from addresses whose package is known, as lines address,label (- reads standard input)'),
    )
    .option('--board <file>', say('with --lane: the board of that lane'))
    .option('--lane <lane>', say('the order of its data bits, from lines bit,ball'))
    .option('--balls <list>', say('the same for a lane whose balls of DQ 0, 1, 2 … these are, with commas'))
    .option('--text', say('lines for people in place of JSON'))
    .addHelpText('after', LEARN_HELP)
    .action(async (file: string, options: LearnOptions) => end(await runLearn(io, file, options)))
  verb(
    'tally <board> <report>',
    say('errors per part, channel, lane and bit of a test report (- reads standard input)'),
    'tally boards/hitch-12.json report.txt --text',
  )
    .option('--recipe <file>', say('how to read the report, in place of guessing'))
    .option('--names <file>', say('what its own names mean: words kept with a board, or \'{\'"C3 low": "CH6"\'}\''))
    .option(
      '--place <name=place...>',
      say('what one of its names means, such as "C3 low=CH6"; a pattern fills the rest'),
    )
    .option('--keep <file>', say('write its names and how it was read there, for the next report that looks so'))
    .option('--force', say('write over a file that is there already'))
    .action(async (board: string, report: string, options: TallyOptions) =>
      end(await runTally(io, board, report, options)),
    )
  verb(
    'reach <case>',
    say('how far each spill got and which parts it reached'),
    'reach demo-data/wept-fitting.case.json',
  ).action(async (file: string, options: { text?: boolean }) => end(await runReach(io, file, options)))
  verb(
    'suspects <case>',
    say('stories that explain the findings, and the lift list'),
    'suspects demo-data/wept-fitting.case.json --text',
  )
    .option('--checks', say('add what to look at or measure next, best first'))
    .action(async (file: string, options: { checks?: boolean; text?: boolean }) =>
      end(await runSuspects(io, file, options)),
    )
  verb(
    'heat <case> <ref>',
    say('the setting that lifts a part, or puts it on again, and what else gets too hot'),
    'heat demo-data/wept-fitting.case.json U14 --text',
  )
    .option('--refit', say('the setting that puts it on again'))
    .action(async (file: string, ref: string, options: { refit?: boolean; text?: boolean }) =>
      end(await runHeat(io, file, ref, options)),
    )
  verb(
    'plan <case>',
    say('the ordered steps of the rework, with settings, materials, cost and another way'),
    'plan demo-data/wept-fitting.case.json --text',
  ).action(async (file: string, options: { text?: boolean }) => end(await runPlan(io, file, options)))
  verb(
    'power <case>',
    say('whether anything measured or seen speaks against power; never that power is harmless'),
    'power demo-data/wept-fitting.case.json --text',
  ).action(async (file: string, options: { text?: boolean }) => end(await runPower(io, file, options)))
  verb(
    'proof <case>',
    say('the runs after the work beside the first: what is gone, new, untested, and what they show'),
    'proof demo-data/returned-card.case.json --text',
  ).action(async (file: string, options: { text?: boolean }) => end(await runProof(io, file, options)))
  verb(
    'counts <case...>',
    say('what closed cases count for a shop’s own record, as the small file that shops pool'),
    'counts visits/*.case.json > our.counts.json',
  )
    .option('--boards', say('name the boards in it'))
    .action(async (files: string[], options: { boards?: boolean; text?: boolean }) =>
      end(await runCounts(io, files, options)),
    )
  program
    .command('picture <case>')
    .description(say('the sheet as SVG'))
    .option('--side <side>', say('top or bottom'), 'top')
    .option('--show <overlays>', say('some of {OVERLAYS}', { OVERLAYS: OVERLAYS.join(',') }), OVERLAYS.join(','))
    .option('--out <file>', say('write it there'))
    .option('--force', say('write over a file that is there already'))
    .addHelpText(
      'after',
      say('\nExample:\n  liftmap picture demo-data/wept-fitting.case.json --show reach,lift --out sheet.svg'),
    )
    .action(async (file: string, options: { side: string; show: string; out?: string; force?: boolean }) =>
      end(await runPicture(io, file, options)),
    )
  program
    .command('record <case>')
    .description(say('the record of the visit: HTML on standard output, or a file'))
    .option(
      '--for <reader>',
      say('owner (plain words), technician (everything), intake (the slip that stays with the card), quote or invoice'),
      'technician',
    )
    .option('--date <day>', say('the day it is made, such as 2026-11-25; today where left out'))
    .option('--out <file>', say('write it there, as .html or .pdf, an invoice also as .csv'))
    .option('--decimal-comma', say('in a .csv: 12,50 and semicolons between'))
    .option('--force', say('write over a file that is there already'))
    .addHelpText(
      'after',
      say('\nExample:\n  liftmap record demo-data/wept-fitting.case.json --for owner --out record.pdf'),
    )
    .action(async (file: string, options: RecordOptions) => end(await runRecord(io, file, options)))
  return program
}

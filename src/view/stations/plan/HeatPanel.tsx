/** One pass's heat: its setting, the moment on the sheet, the joints' curves, whom it exposes, and what would change that. */
import { decimals, joined, say } from '../../../base/index.ts'
import { ArrowLeft } from 'lucide-react'
import { useEffect, useMemo, useRef } from 'react'
import { alloyOf, heatAssumptions, heatCautions, heatLines, type HeatRun } from '../../../heat/index.ts'
import { closeHeat } from './askHeat.ts'
import { Button } from '../../controls/Button.tsx'
import { CurveChart } from '../../controls/CurveChart.tsx'
import { CautionBox, Opening, ProgressBar } from '../../controls/pieces.tsx'
import { FaultRow } from '../../controls/FileMessages.tsx'
import { FiguredText } from '../../figures/index.ts'
import files from '../../controls/files.module.css'
import panel from '../../controls/panel.module.css'
import { exposedInRun, offBefore, shownCurves } from './heatFacts.ts'
import { useBoard, useDesk, usePlan, useScreen } from '../../stores/hooks.ts'
import type { HeatLook } from '../../stores/planStore.ts'
import { shownTheme } from '../../stores/screenStore.ts'
import { CurveTable } from './CurveTable.tsx'
import { Exposed } from './Exposed.tsx'
import styles from './plan.module.css'
import { TargetFacts } from './TargetFacts.tsx'
import { TimeSlider } from './TimeSlider.tsx'
import { WhatIfs } from './WhatIfs.tsx'

export function HeatPanel({ look }: { readonly look: HeatLook }) {
  const desk = useDesk()
  const board = useBoard()
  const head = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    head.current?.focus({ preventScroll: true })
    head.current?.closest('aside')?.scrollTo({ top: 0 })
  }, [])
  return (
    <section className={panel.section} aria-label={say('Heat of step {n}', { n: look.n })}>
      <div className={panel.row}>
        <Button tone="quiet" onClick={() => closeHeat(desk)}>
          <ArrowLeft size={16} aria-hidden="true" /> {say('Back to the plan')}
        </Button>
      </div>
      <div className={panel.heading}>
        <h2 ref={head} tabIndex={-1}>
          {say('Heat of step {n}: {refs}', { n: look.n, refs: joined(look.refs) })}
        </h2>
      </div>
      <ul className={styles.card} aria-label={say('Settings of step {n}', { n: look.n })}>
        {heatLines({ setting: look.setting }).map((line) => (
          <li key={line}>
            <FiguredText words={line} of={{ kind: 'setting', n: look.n }} />
          </li>
        ))}
      </ul>
      {look.state === 'working' && (
        <ProgressBar share={look.progress?.share} words={look.progress?.words ?? say('Heating the board')} />
      )}
      {look.faults.length > 0 && (
        <ul className={files.faults}>
          {look.faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      {look.run !== undefined && <Found look={look} run={look.run} />}
      {board !== undefined && (
        <CautionBox
          title={say('Burns, flux fumes and lead')}
          about={say('Hot work')}
          reasons={heatCautions(look.setting, board.model).map(({ sentence }) => sentence)}
        />
      )}
    </section>
  )
}

function Found({ look, run }: { readonly look: HeatLook; readonly run: HeatRun }) {
  const board = useBoard()
  const theme = useScreen(shownTheme)
  const timeS = usePlan((plan) => plan.timeS)
  const steps = usePlan((plan) => plan.answer?.best.steps)
  const off = useMemo(() => offBefore(steps ?? [], look.n), [steps, look.n])
  const curves = useMemo(() => shownCurves(run, look.refs), [run, look.refs])
  const drawn = useMemo(
    () => curves.map(({ ref, timeS: times, jointC }) => ({ name: ref, timeS: times, value: jointC })),
    [curves],
  )
  const target = board?.model.partByRef.get(look.refs[0] ?? '')
  const liquidusC = heatAssumptions.alloys[alloyOf(target?.description ?? {})].liquidusC
  const level = useMemo(
    () => ({ value: liquidusC, words: say('molten from {liquidusC} °C', { liquidusC }) }),
    [liquidusC],
  )
  return (
    <>
      <TimeSlider run={run} />
      <CurveChart
        label={say('Joint temperature over time of {curves}; the numbers are in the table below', {
          curves: joined(curves.map(({ ref }) => ref)),
        })}
        unit="°C"
        curves={drawn}
        level={level}
        timeS={timeS}
        theme={theme}
      />
      <TargetFacts n={look.n} run={run} refs={look.refs} />
      <h3 className={panel.sub}>{say('What else gets hot')}</h3>
      <Exposed n={look.n} parts={exposedInRun(run, [...look.refs, ...off])} />
      {off.length > 0 && (
        <p className={panel.quiet}>
          {say(
            '{off} {length, plural, one {is} other {are}} off the board at this step and left out here; the temperatures were computed with every part on.',
            { off: joined(off), length: off.length },
          )}
        </p>
      )}
      <WhatIfs look={look} run={run} />
      <Opening summary={say('The curves as a table')}>
        <CurveTable curves={curves} />
      </Opening>
      <Opening summary={say('How far to trust this')}>
        <div className={panel.working}>
          <EnergyWords run={run} />
          {run.notes.map((note) => (
            <p key={note}>
              <FiguredText words={note} of={{ kind: 'setting', n: look.n }} />
            </p>
          ))}
        </div>
      </Opening>
    </>
  )
}

function EnergyWords({ run: { energy } }: { readonly run: HeatRun }) {
  const kilojoules = (joules: number): string => `${decimals(joules / 1000, 1)} kJ`
  const missed = Math.abs(energy.inJ - energy.storedJ - energy.lostJ) / Math.max(1, Math.abs(energy.inJ))
  const within = `${decimals(Math.max(missed * 100, 0.01), 2)} %`
  return (
    <p>
      <FiguredText
        words={say(
          'Energy in {inKj}, lost {lostKj}, still in the board {storedKj}: the balance closes within {within}.',
          {
            inKj: kilojoules(energy.inJ),
            lostKj: kilojoules(energy.lostJ),
            storedKj: kilojoules(energy.storedJ),
            within,
          },
        )}
        numbers={[within]}
        of={{ kind: 'energy-balance' }}
      />
    </p>
  )
}

/** The short finder: a known current into a shorted rail, millivolts at its points, and where the short sinks it. */
import { say } from '../../../../base/index.ts'
import { useEffect, useMemo, useState } from 'react'
import type { BoardModel } from '../../../../board/index.ts'
import type { Case } from '../../../../case/index.ts'
import { lineStates } from '../../../../measure/index.ts'
import { askShort, openHunt, startHunt } from './short.ts'
import { Button } from '../../../controls/Button.tsx'
import { SelectField } from '../../../controls/fields.tsx'
import styles from '../../../controls/panel.module.css'
import { useBoard, useDesk, usePresent } from '../../../stores/hooks.ts'
import { usePhase } from '../../../stores/measuring.ts'
import { useOpenHunt } from './shortView.ts'
import { Hunt } from './Hunt.tsx'

export function ShortFinder() {
  const desk = useDesk()
  const present = usePresent()
  const model = useBoard()?.model
  const hunt = useOpenHunt()
  useEffect(() => {
    if (model !== undefined && hunt !== undefined) void askShort(desk, model, hunt)
  }, [desk, model, hunt])
  if (present === undefined || model === undefined || model.rails.length === 0) return undefined
  return (
    <section className={styles.section} aria-label={say('Short finder')}>
      <div className={styles.heading}>
        <h2>{say('Short finder')}</h2>
        <span>{say('where a shorted rail sinks its current')}</span>
      </div>
      {present.shorts.length > 1 && hunt !== undefined && (
        <SelectField
          label={say('Hunt')}
          value={hunt.id}
          options={present.shorts.map(({ id, rail, readings }, i) => ({
            value: id,
            words: say('{i}: {rail}, {length, plural, one {# reading} other {# readings}}', {
              i: i + 1,
              rail,
              length: readings.length,
            }),
          }))}
          onChange={(id) => openHunt(desk, id)}
        />
      )}
      {hunt === undefined ? (
        <p className={styles.quiet}>
          {say(
            'Where a rail is shorted, put a small known current into it and read millivolts at a few of its points: from the drop along the copper follows where the current leaves it.',
          )}
        </p>
      ) : (
        <Hunt key={hunt.id} hunt={hunt} />
      )}
      <StartHunt model={model} present={present} again={hunt !== undefined} />
    </section>
  )
}

interface StartHuntProps {
  readonly model: BoardModel
  readonly present: Case
  readonly again: boolean
}

/** By the readings of the phase that the sheet stands in: what was short before the work may not be any more. */
function useRailStates(model: BoardModel, { measurements, goodReadings, leads }: Case) {
  const phase = usePhase()
  return useMemo(() => {
    const ofPhase = measurements
      .filter((each) => each.phase === phase)
      .map((each) => ({ ...each, phase: 'before' as const }))
    return lineStates(model, ofPhase, goodReadings, leads).rails
  }, [model, measurements, goodReadings, leads, phase])
}

/** Rails that read low come first, each with a button of its own. */
function StartHunt({ model, present, again }: StartHuntProps) {
  const desk = useDesk()
  const states = useRailStates(model, present)
  const hunted = new Set(present.shorts.map(({ rail }) => rail))
  const low = model.rails.filter(({ name }) => states.get(name) === 'low' && !hunted.has(name))
  const others = model.rails.filter((rail) => !low.includes(rail))
  const [chosen, setChosen] = useState<string>()
  const other = others.find(({ name }) => name === chosen) ?? others[0]
  return (
    <>
      {low.length > 0 && (
        <div className={styles.row} role="group" aria-label={say('Rails that read low')}>
          {low.map((rail) => (
            <Button key={rail.name} tone="strong" onClick={() => startHunt(desk, rail)}>
              {say('Hunt the short on {name}', { name: rail.name })}
            </Button>
          ))}
        </div>
      )}
      {other !== undefined && (
        <div className={styles.two} style={{ alignItems: 'end' }}>
          <SelectField
            label={again ? say('Another rail') : low.length > 0 ? say('Another rail') : say('Rail')}
            value={other.name}
            options={others.map(({ name }) => ({ value: name, words: name }))}
            onChange={setChosen}
          />
          <Button onClick={() => startHunt(desk, other)}>{say('Start search')}</Button>
        </div>
      )}
    </>
  )
}

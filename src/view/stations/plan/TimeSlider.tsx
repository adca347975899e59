/** The moment of a pass that sheet and chart show: slider, play and pause. */
import { say } from '../../../base/index.ts'
import { Pause, Play } from 'lucide-react'
import type { HeatRun } from '../../../heat/index.ts'
import { pauseHeat, playHeat, showMoment } from './askHeat.ts'
import { Button } from '../../controls/Button.tsx'
import { endOf } from './heatFacts.ts'
import { useDesk, usePlan } from '../../stores/hooks.ts'
import styles from './plan.module.css'

export function TimeSlider({ run }: { readonly run: HeatRun }) {
  const desk = useDesk()
  const timeS = usePlan((plan) => plan.timeS)
  const playing = usePlan((plan) => plan.playing)
  const end = Math.round(endOf(run))
  const now = Math.round(timeS)
  return (
    <div>
      <div className={styles.time}>
        <Button
          size="icon"
          aria-label={playing ? say('Pause') : say('Play the pass')}
          onClick={() => (playing ? pauseHeat(desk) : playHeat(desk))}
        >
          {playing ? <Pause size={16} aria-hidden="true" /> : <Play size={16} aria-hidden="true" />}
        </Button>
        <input
          type="range"
          min={0}
          max={end}
          step={1}
          value={now}
          aria-label={say('Time since the preheat began')}
          aria-valuetext={say('{now} seconds, {run}', { now, run: phaseAt(run, timeS) })}
          onChange={(event) => {
            pauseHeat(desk)
            showMoment(desk, Number(event.target.value))
          }}
        />
        <output>{now} s</output>
      </div>
      <p className={styles.small}>{phaseAt(run, timeS)}</p>
    </div>
  )
}

function phaseAt({ setting }: HeatRun, timeS: number): string {
  if (timeS < setting.preheatS) return say('preheat from below')
  return timeS <= setting.preheatS + setting.airS ? say('hot air on the target') : say('cooling in still air')
}

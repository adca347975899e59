/** Powered measuring: whether to give power, that it was given, voltages, and what the host sees. */
import { say } from '../../../base/index.ts'
import { StationCautions } from '../../controls/StationCautions.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { usePhase } from '../../stores/measuring.ts'
import { editPowered } from './measure.ts'
import { Choice } from '../../controls/fields.tsx'
import { MachineLook } from '../bench-machine/MachineLook.tsx'
import { BenchMeans } from './BenchMeans.tsx'
import { BenchSupply } from './BenchSupply.tsx'
import { GivePower } from './GivePower.tsx'
import { MeasuringSheet } from './MeasuringSheet.tsx'
import { PhaseChoice } from './PhaseChoice.tsx'
import { PoweredFacts } from './PoweredFacts.tsx'
import { PowerVerdict } from './PowerVerdict.tsx'
import { RailOrder } from './RailOrder.tsx'

const states = [
  { value: 'idle', words: say('Idle') },
  { value: 'load', words: say('Under load') },
  { value: 'unknown', words: say('Not said') },
] as const

export function PoweredMeasuring() {
  const desk = useDesk()
  const present = usePresent()
  const phase = usePhase()
  if (present === undefined) return undefined
  return (
    <section className={styles.section} aria-label={say('Powered measuring')}>
      <div className={styles.heading}>
        <h2>{say('Powered measuring')}</h2>
        <span>{say('what it does under power')}</span>
      </div>
      <PowerVerdict />
      <StationCautions station="powered-measuring" title={say('Before you give it power')} />
      <PhaseChoice />
      <GivePower />
      <BenchSupply powered={present.powered} />
      <BenchMeans quantity="volts" phase={phase} />
      <Choice
        label={say('While these voltages are read the card is')}
        value={present.powered.state}
        options={states}
        onChange={(state) => editPowered(desk, { state })}
      />
      <MeasuringSheet quantity="volts" phase={phase} />
      <RailOrder phase={phase} />
      <PoweredFacts powered={present.powered} />
      <MachineLook phase="before" />
    </section>
  )
}

/** One look on the bench machine, before the work or after it: what differs is in sight, all else behind a line that says what it holds. */
import { say } from '../../../base/index.ts'
import type { BenchPhase, Look } from '../../../case/index.ts'
import { Choice, TextField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { CoolerFields } from './CoolerFields.tsx'
import { editLook, firmwareOf, lookOf } from './edit.ts'
import { FirmwareFields } from './FirmwareFields.tsx'
import { Fold } from './Fold.tsx'
import { LinkFields } from './LinkFields.tsx'
import { MachineRemarks } from './MachineRemarks.tsx'
import { OutputRows } from './OutputRows.tsx'
import { TemperatureFields } from './TemperatureFields.tsx'
import {
  coolerSummary,
  firmwareSummary,
  linkSummary,
  lookSummary,
  outputsSummary,
  temperatureSummary,
} from './words.ts'

const fans = [
  { value: 'all turn', words: say('All turn') },
  { value: 'some stand', words: say('Some stand') },
  { value: 'none turns', words: say('None turns') },
  { value: 'no fans', words: say('Has none') },
  { value: 'unknown', words: say('Not seen') },
] as const

const detected = [
  { value: 'yes', words: say('Yes') },
  { value: 'no', words: say('No') },
  { value: 'unknown', words: say('Not tried') },
] as const

export function MachineLook({ phase }: { readonly phase: BenchPhase }) {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const look = lookOf(present, phase)
  const edit = (change: Partial<Look>): void => editLook(desk, phase, (now) => ({ ...now, ...change }))
  const firmware = firmwareOf(present)
  return (
    <section className={styles.section} aria-label={say('On the bench machine')}>
      <MachineRemarks phase={phase} />
      <Opening
        summary={say('Bench machine{value}: {look}', {
          value: phase === 'after' ? say(' after the work') : '',
          look: lookSummary(look, firmware, phase),
        })}
      >
        <div className={styles.section}>
          {phase === 'after' && (
            <Choice
              label={say('Detected by the PC')}
              value={look.detected}
              options={detected}
              onChange={(answer) => edit({ detected: answer })}
            />
          )}
          <Choice label={say('Fans')} value={look.fans} options={fans} onChange={(answer) => edit({ fans: answer })} />
          <div>
            <Fold name={say('Link')} holds={linkSummary(look)}>
              <LinkFields look={look} phase={phase} />
            </Fold>
            <Fold name={say('Display outputs')} holds={outputsSummary(look)}>
              <OutputRows look={look} phase={phase} />
            </Fold>
            <Fold
              name={say('Error messages')}
              holds={look.errorWords === '' ? say('none noted') : look.errorWords.slice(0, 40)}
            >
              <TextField
                label={say('As they stand there, word for word')}
                long
                maxLength={4000}
                value={look.errorWords}
                onChange={(errorWords) => editLook(desk, phase, (now) => ({ ...now, errorWords }), 'error words')}
              />
            </Fold>
            <Fold name={say('Temperatures')} holds={temperatureSummary(look)}>
              <TemperatureFields look={look} phase={phase} />
            </Fold>
            <Fold
              name={phase === 'before' ? say('Cooler as it came') : say('Cooler as refitted')}
              holds={coolerSummary(look)}
            >
              <CoolerFields look={look} phase={phase} />
            </Fold>
            {phase === 'before' && (
              <Fold name={say('Firmware')} holds={firmwareSummary(firmware)}>
                <FirmwareFields firmware={firmware} />
              </Fold>
            )}
          </div>
        </div>
      </Opening>
    </section>
  )
}

/** Core, hot spot and memory with air and load; packages one by one where they were measured so. */
import { say } from '../../../base/index.ts'
import { X } from 'lucide-react'
import type { BenchPhase, Look, Temperatures } from '../../../case/index.ts'
import { Button } from '../../controls/Button.tsx'
import panel from '../../controls/panel.module.css'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import own from './benchMachine.module.css'
import { editLook } from './edit.ts'
import { PackageField } from './PackageField.tsx'

const figures = [
  ['airC', say('Air'), '°C', 300],
  ['loadW', say('Load'), 'W', 2000],
  ['coreC', say('Core'), '°C', 300],
  ['minutes', say('Under it for'), 'min', 10_000],
  ['hotSpotC', say('Hot spot'), '°C', 300],
  ['memoryC', say('Memory, hottest'), '°C', 300],
] as const

/** After the work each field says what it read before. */
const hintOf = (value: number | undefined, unit: string): string | undefined =>
  value === undefined ? undefined : say('before: {value} {unit}', { value, unit })

export function TemperatureFields({ look, phase }: { readonly look: Look; readonly phase: BenchPhase }) {
  const desk = useDesk()
  const board = useBoard()
  const present = usePresent()
  const before = phase === 'after' ? present?.benchMachine?.before?.temperatures : undefined
  const temperatures: Temperatures = look.temperatures ?? { packages: [] }
  const edit = (change: (now: Temperatures) => Temperatures, key?: string): void =>
    editLook(
      desk,
      phase,
      (now) => ({ ...now, temperatures: change(now.temperatures ?? { packages: [] }) }),
      key === undefined ? undefined : `temperature ${key}`,
    )
  const note = (ref: string, celsius: number): void =>
    edit((now) => ({ ...now, packages: [...now.packages.filter((each) => each.ref !== ref), { ref, celsius }] }))
  return (
    <>
      <div className={panel.two}>
        {figures.map(([key, label, unit, most]) => (
          <AmountField
            key={key}
            label={label}
            unit={unit}
            least={unit === '°C' ? -60 : 0}
            most={most}
            value={temperatures[key]}
            hint={hintOf(before?.[key], unit)}
            onChange={(value) => edit((now) => ({ ...now, [key]: value }), key)}
          />
        ))}
      </div>
      {temperatures.packages.length > 0 && (
        <ul className={own.chips} aria-label={say('Packages measured one by one')}>
          {temperatures.packages.map(({ ref, celsius }) => (
            <li key={ref}>
              {ref} {celsius} °C
              <Button
                tone="quiet"
                size="icon"
                aria-label={say('Remove {ref}', { ref })}
                onClick={() => edit((now) => ({ ...now, packages: now.packages.filter((each) => each.ref !== ref) }))}
              >
                <X size={14} aria-hidden="true" />
              </Button>
            </li>
          ))}
        </ul>
      )}
      <PackageField refs={board?.model.memories.map(({ ref }) => ref) ?? []} onNote={note} />
    </>
  )
}

/** What a hunt is set to: the current, where it goes in, the side of the probes; meter and copper where they are known better. */
import { Crosshair } from 'lucide-react'
import { type Point, say } from '../../../../base/index.ts'
import type { Rail } from '../../../../board/index.ts'
import type { ProbePlace, ShortHunt } from '../../../../measure/index.ts'
import { editHunt, placeWords, takeProbe, turnHunt } from './short.ts'
import { Button } from '../../../controls/Button.tsx'
import { Choice, NumberField, SelectField, Tick } from '../../../controls/fields.tsx'
import { Opening } from '../../../controls/pieces.tsx'
import styles from '../../../controls/panel.module.css'
import { useDesk, useScreen } from '../../../stores/hooks.ts'
import { useShort } from './shortView.ts'

interface HuntSettingProps {
  readonly hunt: ShortHunt
  readonly rail: Rail | undefined
  readonly places: readonly ProbePlace[]
}

const sides = [
  { value: 'top', words: say('Top') },
  { value: 'bottom', words: say('Bottom') },
] as const

export function HuntSetting({ hunt, rail, places }: HuntSettingProps) {
  const desk = useDesk()
  const pointing = useScreen((screen) => screen.tool === 'probe')
  const atSource = useShort((state) => state.pointing === 'source')
  const points = sourcePoints(hunt, rail, places)
  const set = (change: Partial<ShortHunt>, key: string): void =>
    editHunt(desk, hunt.id, (h) => ({ ...h, ...change }), `${key} ${hunt.id}`)
  return (
    <>
      <div className={styles.two}>
        <NumberField
          label={say('Current')}
          unit="A"
          min={0.001}
          max={100}
          step={0.1}
          value={hunt.currentA}
          onChange={(currentA) => set({ currentA }, 'current')}
        />
        <Choice
          label={say('Probes on the')}
          value={hunt.side}
          options={sides}
          onChange={(side) => turnHunt(desk, hunt.id, side)}
        />
      </div>
      <SelectField
        label={say('Current goes in at')}
        value={String(points.findIndex(({ at }) => same(at, hunt.sourceAt)))}
        options={points.map(({ label }, i) => ({ value: String(i), words: label }))}
        onChange={(value) => {
          const at = points[Number(value)]?.at
          if (at !== undefined) set({ sourceAt: { x: at.x, y: at.y } }, 'source')
        }}
      />
      <div className={styles.row}>
        <Button
          aria-pressed={pointing && atSource}
          tone={pointing && atSource ? 'strong' : 'plain'}
          onClick={() => takeProbe(desk, 'source')}
        >
          <Crosshair size={15} aria-hidden="true" /> {say('Point at where it goes in')}
        </Button>
      </div>
      <Opening summary={say('Meter and copper')}>
        <div className={styles.section}>
          <NumberField
            label={say('A reading wanders by')}
            hint={say('standard deviation; repeat one reading to see it')}
            unit="mV"
            min={0.0001}
            max={1000}
            step={0.01}
            value={hunt.noiseMillivolt}
            onChange={(noiseMillivolt) => set({ noiseMillivolt }, 'noise')}
          />
          <Tick
            label={say('I measured the copper’s resistance per square')}
            checked={hunt.sheetMilliohm !== undefined}
            onChange={(measured) =>
              editHunt(desk, hunt.id, (h) => (measured ? { ...h, sheetMilliohm: OUNCE_MILLIOHM } : withoutSquare(h)))
            }
          />
          {hunt.sheetMilliohm !== undefined && (
            <NumberField
              label={say('One square')}
              unit="mΩ"
              min={0.001}
              max={1000}
              step={0.01}
              value={hunt.sheetMilliohm}
              onChange={(sheetMilliohm) => set({ sheetMilliohm }, 'square')}
            />
          )}
        </div>
      </Opening>
    </>
  )
}

/** Of copper of 35 µm at 20 °C. */
const OUNCE_MILLIOHM = 0.49

function withoutSquare(hunt: ShortHunt): ShortHunt {
  const { sheetMilliohm: _, ...rest } = hunt
  return rest
}

const same = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y

/** The rail's points, those that a probe reaches on this side, and where it goes in now if that is none of them. */
function sourcePoints(hunt: ShortHunt, rail: Rail | undefined, places: readonly ProbePlace[]): ProbePlace[] {
  const own = (rail?.points ?? []).map(({ at, part, pad }) => ({
    at,
    label: part === undefined ? placeWords(at) : pad === undefined ? part : say('{part} pad {pad}', { part, pad }),
  }))
  const known = [...own, ...places.filter(({ at }) => !own.some((point) => same(point.at, at)))]
  return known.some(({ at }) => same(at, hunt.sourceAt))
    ? known
    : [{ at: hunt.sourceAt, label: placeWords(hunt.sourceAt) }, ...known]
}

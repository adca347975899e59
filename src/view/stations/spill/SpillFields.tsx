/** The fields of one spill mark. */
import { say } from '../../../base/index.ts'
import { type SpillMark, type Substance, waysOfMoving, substanceOf } from '../../../spill/index.ts'
import { editSpill } from '../../actions/edit.ts'
import { Choice, NumberField, SelectField, Tick } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { PlaceFields } from '../marks/MarkFields.tsx'
import { HungField } from './SpillMounting.tsx'
import { PressedField, PushField } from './SpillPressed.tsx'
import { SubstanceCleaning } from './SubstanceCleaning.tsx'
import { SubstanceFigures } from './SubstanceFigures.tsx'

export function SpillFields({ mark }: { readonly mark: SpillMark }) {
  const desk = useDesk()
  const own = usePresent()?.substances ?? []
  const set = (change: Partial<SpillMark>): void =>
    editSpill(desk, mark.id, change, `spill ${mark.id} ${Object.keys(change).join()}`)
  const substance = substanceOf(mark.substance, own)
  const isPushed = substance !== undefined && waysOfMoving[substance.moves].isPushed
  return (
    <>
      {isPushed && <PressedField mark={mark} substance={substance} set={set} />}
      {isPushed && <PushField mark={mark} substance={substance} set={set} />}
      <AmountFields mark={mark} set={set} />
      <NumberField
        label={say('The point is sure to')}
        hint={say('Two times in three it is nearer.')}
        unit={say('± mm')}
        min={0}
        max={200}
        value={Number(mark.sdMm.toFixed(1))}
        onChange={(sdMm) => set({ sdMm })}
      />
      <HungField mark={mark} />
      <Tick
        label={say('It may have reached the other side')}
        checked={mark.reachesOtherSide}
        onChange={(reachesOtherSide) => set({ reachesOtherSide })}
      />
      <PlaceFields side={mark.side} at={mark.at} onChange={set} />
      {substance !== undefined && <SubstanceCleaning substance={substance} />}
      {substance !== undefined && (
        <Opening summary={say('Its figures: {movesWords}', { movesWords: movesWords[substance.moves] })}>
          <SubstanceFigures substance={substance} />
        </Opening>
      )}
    </>
  )
}

const movesWords: Readonly<Record<Substance['moves'], string>> = {
  wets: say('it flows and creeps under parts'),
  pinned: say('it stays where it was smeared until pushed'),
  crust: say('it has dried and stays'),
}

interface PieceProps {
  readonly mark: SpillMark
  readonly set: (change: Partial<SpillMark>) => void
}

const amountKinds = [
  { value: 'volume', words: say('Volume') },
  { value: 'smear', words: say('Smear') },
] as const

const surenesses = [
  { value: '0.1', words: say('measured') },
  { value: '0.4', words: say('within half as much again') },
  { value: '0.7', words: say('half to twice as much') },
  { value: '1.2', words: say('a third to three times') },
] as const

function AmountFields({ mark, set }: PieceProps) {
  const { amount } = mark
  const sureness = surenesses.reduce((best, entry) =>
    Math.abs(Number(entry.value) - mark.amountSdLog) < Math.abs(Number(best.value) - mark.amountSdLog) ? entry : best,
  )
  return (
    <>
      <Choice
        label={say('How much')}
        value={'volumeMl' in amount ? 'volume' : 'smear'}
        options={amountKinds}
        onChange={(kind) => set({ amount: kind === 'volume' ? { volumeMl: 0.4 } : { smearCm2: 1 } })}
      />
      {'volumeMl' in amount ? (
        <NumberField
          label={say('Volume')}
          unit="ml"
          min={0.001}
          max={2000}
          step={0.1}
          value={amount.volumeMl}
          onChange={(volumeMl) => set({ amount: { volumeMl } })}
        />
      ) : (
        <NumberField
          label={say('Area')}
          unit={say('cm²')}
          min={0.01}
          max={5000}
          step={0.5}
          value={amount.smearCm2}
          onChange={(smearCm2) => set({ amount: { smearCm2 } })}
        />
      )}
      <SelectField
        label={say('How sure')}
        value={sureness.value}
        options={surenesses}
        onChange={(value) => set({ amountSdLog: Number(value) })}
      />
    </>
  )
}

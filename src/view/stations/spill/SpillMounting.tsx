/** How the card hung while it was spilled on: level with the core side up or down, on an edge, or at an angle. */
import { say } from '../../../base/index.ts'
import {
  fullTurn,
  hangsDown,
  type Hung,
  hungOf,
  hungWords,
  mountedAs,
  mountingSchema,
  type SpillMark,
} from '../../../spill/index.ts'
import { editSpill, hangAs } from '../../actions/edit.ts'
import { NumberField, SelectField } from '../../controls/fields.tsx'
import { useBoard, useDesk } from '../../stores/hooks.ts'

const FIRST_ANGLE_DEG = 225

const options = (['not said', ...mountingSchema.options, 'at an angle'] as const).map((value) => ({
  value,
  words: hungWords[value],
}))

export function HungField({ mark }: { readonly mark: SpillMark }) {
  const desk = useDesk()
  const coreSide = useBoard()?.model.core?.side ?? 'top'
  const hung = hungOf(mark)
  return (
    <>
      <SelectField
        label={say('How the card hung then')}
        hint={hintOf(mark, hangsDown(mark, coreSide))}
        value={hung}
        options={options}
        onChange={(chosen) => hangAs(desk, mark.id, fieldsOf(chosen))}
      />
      {hung === 'at an angle' && (
        <NumberField
          label={say('Down, counter-clockwise from the right')}
          unit="°"
          min={0}
          max={360}
          step={5}
          value={Math.round(fullTurn(mark.downDeg ?? 0))}
          onChange={(downDeg) => editSpill(desk, mark.id, { downDeg }, `down ${mark.id}`)}
        />
      )}
    </>
  )
}

function fieldsOf(hung: Hung): Pick<SpillMark, 'downDeg' | 'lay'> {
  if (hung === 'not said') return {}
  return hung === 'at an angle' ? { downDeg: FIRST_ANGLE_DEG } : mountedAs(hung)
}

function hintOf(mark: SpillMark, hangs: boolean): string {
  if (mark.downDeg !== undefined) return say('What flows runs down from here, as the arrow shows.')
  if (hangs) return say('This side faced down: what flows hangs as a drop, the rest drips off.')
  if (mark.lay === undefined) return say('Nothing was said: it is counted as lying below the spill.')
  return say('This side faced up: what flows stands as a puddle.')
}

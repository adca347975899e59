/** How the card hung while it was spilled on: level with the core side up or down, on an edge, or at an angle. */
import { hangsDown, mountedAs, mountingOf, mountingSchema, mountingWords, type SpillMark } from '../../spill/index.ts'
import { editSpill, hangAs } from '../actions/edit.ts'
import { NumberField, SelectField } from '../controls/fields.tsx'
import { useBoard, useDesk } from '../stores/hooks.ts'

const OTHER = 'other'
const FIRST_ANGLE_DEG = 225

const options = [
  ...(['hanging', 'flat', 'upright', 'slot-up', 'bracket-down', 'bracket-up'] as const).map((value) => ({
    value,
    words: mountingWords[value],
  })),
  { value: OTHER, words: 'On edge, at another angle' },
]

export function HungField({ mark }: { readonly mark: SpillMark }) {
  const desk = useDesk()
  const coreSide = useBoard()?.model.core?.side ?? 'top'
  const mounting = mountingOf(mark)
  return (
    <>
      <SelectField
        label="How the card hung then"
        hint={hintOf(mark, hangsDown(mark, coreSide))}
        value={mounting ?? OTHER}
        options={options}
        onChange={(chosen) => {
          const known = mountingSchema.safeParse(chosen)
          hangAs(desk, mark.id, known.success ? mountedAs(known.data) : { downDeg: FIRST_ANGLE_DEG })
        }}
      />
      {mounting === undefined && (
        <NumberField
          label="Down, counter-clockwise from the right"
          unit="°"
          min={0}
          max={360}
          step={5}
          value={Math.round((((mark.downDeg ?? 0) % 360) + 360) % 360)}
          onChange={(downDeg) => editSpill(desk, mark.id, { downDeg }, `down ${mark.id}`)}
        />
      )}
    </>
  )
}

function hintOf(mark: SpillMark, hangs: boolean): string {
  if (mark.downDeg !== undefined) return 'What flows runs down from here, as the arrow shows.'
  if (hangs) return 'This side faced down: what flows hangs as a drop, the rest drips off.'
  if (mark.lay === undefined) return 'Nothing was said: it is counted as lying below the spill.'
  return 'This side faced up: what flows stands as a puddle.'
}

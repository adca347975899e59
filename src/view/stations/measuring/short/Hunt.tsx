/** One hunt: its cautions, what it is set to, the next reading, what was found, and the readings so far. */
import { plainly, say } from '../../../../base/index.ts'
import { Trash2 } from 'lucide-react'
import type { ShortHunt } from '../../../../measure/index.ts'
import { removeHunt } from './short.ts'
import { Button } from '../../../controls/Button.tsx'
import { CautionBox } from '../../../controls/pieces.tsx'
import { FaultRow } from '../../../controls/FileMessages.tsx'
import files from '../../../controls/files.module.css'
import styles from '../../../controls/panel.module.css'
import { useBoard, useDesk } from '../../../stores/hooks.ts'
import { useShort, useShortAnswer } from './shortView.ts'
import { HuntSetting } from './HuntSetting.tsx'
import { NextReading } from './NextReading.tsx'
import { ReadingTable } from './ReadingTable.tsx'
import { ShortFinding } from './ShortFinding.tsx'

export function Hunt({ hunt }: { readonly hunt: ShortHunt }) {
  const desk = useDesk()
  const rail = useBoard()?.model.rails.find(({ name }) => name === hunt.rail)
  const answer = useShortAnswer(hunt)
  const faults = useShort((state) => state.faults)
  return (
    <>
      <div className={styles.row} style={{ justifyContent: 'space-between' }}>
        <h3 className={styles.sub}>
          {hunt.rail}
          {rail?.nominalV !== undefined && `, ${plainly(rail.nominalV)} V`}
        </h3>
        <Button tone="quiet" onClick={() => removeHunt(desk, hunt.id)}>
          <Trash2 size={15} aria-hidden="true" /> {say('Remove this hunt')}
        </Button>
      </div>
      <CautionBox title={say('Before current goes in')} reasons={cautionsOf(hunt.rail, rail?.nominalV)}>
        <p>{say('Local rules and qualified people take precedence.')}</p>
      </CautionBox>
      <HuntSetting hunt={hunt} rail={rail} places={answer?.places ?? []} />
      {faults.length > 0 && (
        <ul className={files.faults} aria-label={say('Why there is no answer')}>
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      <NextReading hunt={hunt} answer={answer} />
      {answer !== undefined && <ShortFinding answer={answer} />}
      <ReadingTable hunt={hunt} answer={answer} />
    </>
  )
}

/** Common practice, no source. */
function cautionsOf(rail: string, nominalV: number | undefined): string[] {
  const highest =
    nominalV === undefined
      ? say('the rail’s nominal voltage')
      : say('{nominalV} V, what {rail} is made for', { nominalV, rail })
  return [
    say(
      'Card unplugged. Never above {highest}: begin with 0.3 to 0.5 V and the current limited to 1 A, raise in small steps, and watch.',
      { highest },
    ),
    say(
      'The spot heats with the square of the current: look with a thermal camera, no solvent near, stop when it warms fast.',
    ),
    say('Don’t feed the core’s rail through the memory, or the other way round: separate them first.'),
    say('Read with two leads of their own (four wires), not at the leads that carry the current.'),
  ]
}

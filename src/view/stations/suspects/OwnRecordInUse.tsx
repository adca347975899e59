/** Says that figures of the shop's own record stand in place of the shipped ones, of how many cards, and leads to them. */
import { say } from '../../../base/index.ts'
import { openPage } from '../../actions/pages.ts'
import { LinkButton } from '../../controls/Button.tsx'
import panel from '../../controls/panel.module.css'
import { saidAround } from '../../controls/saidAround.ts'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'

export function OwnRecordInUse() {
  const desk = useDesk()
  const ownRecord = usePresent()?.ownRecord
  const board = useBoard()?.model.name
  if (ownRecord === undefined) return undefined
  const { cards, boardAlone } = ownRecord
  const record = <LinkButton onClick={() => openPage(desk, 'own-record')}>{say('the shop’s own record')}</LinkButton>
  return (
    <p className={panel.quiet}>
      {boardAlone
        ? saidAround('Judged with {record}: {cards, plural, one {# closed card} other {# closed cards}} of {board}.', {
            record,
            cards,
            board: board ?? say('this board'),
          })
        : saidAround(
            'Judged with {record}: {cards, plural, one {# closed card} other {# closed cards}} of all boards.',
            { record, cards },
          )}
      {cards === 0 && ` ${say('Every figure is as it ships.')}`}
    </p>
  )
}

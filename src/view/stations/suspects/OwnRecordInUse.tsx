/** Says that figures of the shop's own record stand in place of the shipped ones, of how many cards, and leads to them. */
import { say } from '../../../base/index.ts'
import { openPage } from '../../actions/pages.ts'
import { LinkButton } from '../../controls/Button.tsx'
import panel from '../../controls/panel.module.css'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'

export function OwnRecordInUse() {
  const desk = useDesk()
  const ownRecord = usePresent()?.ownRecord
  const board = useBoard()?.model.name
  if (ownRecord === undefined) return undefined
  const { cards, boardAlone } = ownRecord
  return (
    <p className={panel.quiet}>
      {say('Judged with')}{' '}
      <LinkButton onClick={() => openPage(desk, 'own-record')}>{say('the shop’s own record')}</LinkButton>:{' '}
      {say('{cards, plural, one {# closed card} other {# closed cards}}', { cards })}
      {boardAlone ? say(' of {board}', { board: board ?? say('this board') }) : say(' of all boards')}
      {cards === 0 && say(', so every figure is as it ships')}.
    </p>
  )
}

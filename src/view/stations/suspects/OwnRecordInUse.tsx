/** Says that figures of the shop's own record stand in place of the shipped ones, of how many cards, and leads to them. */
import { counted } from '../../../base/index.ts'
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
      Judged with <LinkButton onClick={() => openPage(desk, 'own-record')}>the shop’s own record</LinkButton>:{' '}
      {counted(cards, 'closed card')}
      {boardAlone ? ` of ${board ?? 'this board'}` : ' of all boards'}
      {cards === 0 && ', so every figure is as it ships'}.
    </p>
  )
}

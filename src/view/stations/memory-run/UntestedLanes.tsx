/** Above the lift list: lanes that no run names are neither good nor bad, and what they are may decide the list. */
import { say } from '../../../base/index.ts'
import { editReport } from '../../actions/reports.ts'
import { LinkButton } from '../../controls/Button.tsx'
import panel from '../../controls/panel.module.css'
import { saidAround } from '../../controls/saidAround.ts'
import { useDesk, usePresent, useTally } from '../../stores/hooks.ts'

export function UntestedLanes() {
  const desk = useDesk()
  const tally = useTally()
  const reports = usePresent()?.reports
  if (tally === undefined || reports === undefined) return undefined
  const lanes = tally.parts.flatMap(({ channels }) => channels.flatMap((channel) => channel.lanes))
  const untested = lanes.filter(({ state }) => state === 'untested').length
  const counting = reports.filter(({ run, coversAll }) => run === 'first' && !coversAll)
  const [last] = counting.slice(-1)
  if (untested === 0 || last === undefined || !lanes.some(({ state }) => state === 'fail')) return undefined
  return (
    <p className={panel.quiet}>
      <b>{say('{untested, plural, one {# lane} other {# lanes}} untested.', { untested })}</b>{' '}
      {saidAround('If the test went over them and they passed, {saySo}: it may change the list.', {
        saySo: (
          <LinkButton onClick={() => editReport(desk, last.id, (entry) => ({ ...entry, coversAll: true }))}>
            {say('say so')}
          </LinkButton>
        ),
      })}
    </p>
  )
}

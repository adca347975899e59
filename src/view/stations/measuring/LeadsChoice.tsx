/** How the leads count in cold readings: as they are, taken off, set to zero at the meter, or four wires. */
import { plainly, say } from '../../../base/index.ts'
import { type Leads, measuringRules } from '../../../measure/index.ts'
import { setLeads } from './measure.ts'
import { NumberField, SelectField } from '../../controls/fields.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import own from './measuring.module.css'

const ways = [
  { value: 'unknown', words: say('Two wires, as read') },
  { value: 'taken-off', words: say('Leads taken off') },
  { value: 'zeroed', words: say('Meter set to zero') },
  { value: 'four-wire', words: say('Four wires') },
] as const
type Way = (typeof ways)[number]['value']

const usualLeadsOhm = measuringRules.touchingLeadsOhm.value

export function LeadsChoice() {
  const desk = useDesk()
  const leads = usePresent()?.leads
  const way = wayOf(leads)
  return (
    <div className={own.leads}>
      <SelectField
        label={say('Leads')}
        value={way}
        options={ways}
        onChange={(chosen) => setLeads(desk, leadsOf(chosen, leads))}
      />
      {way === 'taken-off' && (
        <NumberField
          label={say('Touching probes read')}
          unit="Ω"
          min={0}
          max={10}
          step={0.01}
          value={leads?.ohm ?? usualLeadsOhm}
          onChange={(ohm) => setLeads(desk, { kind: 'two-wire', ohm })}
        />
      )}
    </div>
  )
}

/** How they count, as a fold says it. */
export function leadsWords(leads: Leads | undefined): string {
  const way = wayOf(leads)
  const words = ways.find(({ value }) => value === way)?.words.toLowerCase() ?? ''
  return leads?.kind === 'two-wire' && leads.ohm !== undefined ? `${words}, ${plainly(leads.ohm)} Ω` : words
}

function wayOf(leads: Leads | undefined): Way {
  if (leads === undefined) return 'unknown'
  if (leads.kind !== 'two-wire') return leads.kind
  return leads.ohm === undefined ? 'unknown' : 'taken-off'
}

function leadsOf(way: Way, before: Leads | undefined): Leads | undefined {
  if (way === 'unknown') return undefined
  return way === 'taken-off' ? { kind: 'two-wire', ohm: before?.ohm ?? usualLeadsOhm } : { kind: way }
}

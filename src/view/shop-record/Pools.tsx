/** Counts alone, out to other shops and in from them: shown apart, and taken out again as easily. */
import { Download, FolderOpen, Trash2 } from 'lucide-react'
import { useId, useState } from 'react'
import { type Fault, say } from '../../base/index.ts'
import { acceptFor } from '../../case/index.ts'
import { countsFileOf, isEmpty } from '../../rehearsal/index.ts'
import { saveFile } from '../actions/saveFile.ts'
import { removePool, renamePool, takeInCounts } from '../actions/ownRecord.ts'
import { Button } from '../controls/Button.tsx'
import { FileButton } from '../controls/FileButton.tsx'
import { Tick } from '../controls/fields.tsx'
import controls from '../controls/controls.module.css'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import panel from '../controls/panel.module.css'
import type { RecordChoice } from '../shelf/ownRecord.ts'
import { useDesk } from '../stores/hooks.ts'
import styles from './shopRecord.module.css'
import type { ShownRecord } from './useShopRecord.ts'

export function Pools({ shown }: { readonly shown: ShownRecord }) {
  const { pools } = shown.choice
  return (
    <section className={panel.section} aria-label={say('Counts of other shops')}>
      <h2 className={panel.sub}>{say('Pool counts with other shops')}</h2>
      <p className={panel.quiet}>
        {say(
          'A file of counts holds numbers alone: no card, no owner, no part, no day. Counts that come in add to this shop’s wherever the record is used, but not to how right Liftmap was here.',
        )}
      </p>
      <Export shown={shown} />
      <Import />
      {pools.length > 0 && (
        <ul className={styles.pools} aria-label={say('Counts that came in')}>
          {pools.map((pool) => (
            <PoolRow key={pool.name} pool={pool} />
          ))}
        </ul>
      )}
    </section>
  )
}

function Export({ shown: { record } }: { readonly shown: ShownRecord }) {
  const [named, setNamed] = useState(false)
  const write = (): void => {
    const file = countsFileOf(record.own, named ? 'with boards' : 'without boards')
    saveFile('shop.counts.json', new Blob([`${JSON.stringify(file, undefined, 2)}\n`], { type: 'application/json' }))
  }
  return (
    <div className={panel.row}>
      <Button disabled={isEmpty(record.own.all)} onClick={write}>
        <Download size={16} aria-hidden="true" /> {say('Export this shop’s counts')}
      </Button>
      <Tick label={say('with the names of boards')} checked={named} onChange={setNamed} />
    </div>
  )
}

function Import() {
  const desk = useDesk()
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const [words, setWords] = useState('')
  const take = async (file: File): Promise<void> => {
    const taken = await takeInCounts(desk, file)
    setFaults(taken.ok ? [] : taken.faults)
    if (!taken.ok) return setWords('')
    const { name, cards, doubt } = taken.value
    setWords(
      [say('“{name}” was added: {cards, plural, one {# card} other {# cards}}.', { name, cards }), doubt ?? '']
        .join(' ')
        .trim(),
    )
  }
  return (
    <>
      <div className={panel.row}>
        <FileButton
          label={say('File of counts to take in')}
          accept={acceptFor(['counts'])}
          onFile={(file) => void take(file)}
        >
          <FolderOpen size={16} aria-hidden="true" /> {say('Take in a file of counts…')}
        </FileButton>
      </div>
      <p role="status">{words}</p>
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
    </>
  )
}

function PoolRow({ pool: { name, all, boards } }: { readonly pool: RecordChoice['pools'][number] }) {
  const desk = useDesk()
  const id = useId()
  const known = Object.keys(boards).length
  return (
    <li>
      <label className="visually-hidden" htmlFor={id}>
        {say('Name of these counts')}
      </label>
      <input
        id={id}
        className={controls.input}
        defaultValue={name}
        maxLength={200}
        onBlur={(event) => void renamePool(desk, name, event.target.value)}
        onKeyDown={(event) => event.key === 'Enter' && event.currentTarget.blur()}
      />
      <span>
        {say('{cards, plural, one {# card} other {# cards}}', { cards: all.cards })},{' '}
        {known === 0 ? say('boards not named') : say('{known, plural, one {# board} other {# boards}}', { known })}
      </span>
      <Button
        size="icon"
        tone="quiet"
        aria-label={say('Take “{name}” out again', { name })}
        onClick={() => void removePool(desk, name)}
      >
        <Trash2 size={16} aria-hidden="true" />
      </Button>
    </li>
  )
}

/** Help: the station that is open first, then the others; how each figure is worked out; keys; the tour. */
import { say } from '../../base/index.ts'
import { useState } from 'react'
import { type Station, stations } from '../../case/index.ts'
import { Button } from '../controls/Button.tsx'
import { Opening } from '../controls/pieces.tsx'
import { figureRules, figureRulesAt } from '../figures/catalogue.ts'
import type { FigureRule } from '../figures/figure.ts'
import { useDesk, useScreen } from '../stores/hooks.ts'
import { entries } from '../stations/entries.ts'
import styles from './help.module.css'
import { keyHelp, stationHelp } from './stationHelp.ts'
import { beginTour } from './tour.ts'

export function HelpPage() {
  const desk = useDesk()
  const open = useScreen((screen) => screen.station)
  const [station, setStation] = useState<Station>(open)
  return (
    <div className={styles.help}>
      <nav aria-label={say('Help by station')} className={styles.nav}>
        {stations.map((each) => (
          <button
            key={each}
            type="button"
            aria-current={each === station ? 'page' : undefined}
            onClick={() => setStation(each)}
          >
            <span>{entries[each].name}</span> <kbd>{entries[each].key}</kbd>
          </button>
        ))}
        <Button onClick={() => void beginTour(desk)}>{say('Tour of the demo card')}</Button>
      </nav>
      <div className={styles.text}>
        <OneStation station={station} />
        <Keys />
      </div>
    </div>
  )
}

function OneStation({ station }: { readonly station: Station }) {
  const { purpose, enter, get } = stationHelp[station]
  const own = figureRulesAt(station)
  const others = figureRules.filter((figure) => !own.includes(figure))
  return (
    <>
      <section aria-label={entries[station].name}>
        <h2>{entries[station].name}</h2>
        <p className={styles.purpose}>{purpose}</p>
        <div className={styles.two}>
          <List title={say('You enter')} lines={enter} />
          <List title={say('You get')} lines={get} />
        </div>
      </section>
      <section aria-label={say('How it is worked out')}>
        <h3>{say('How it is worked out')}</h3>
        {own.map((figure) => (
          <Figure key={figure.title} figure={figure} />
        ))}
        {own.length === 0 && <p>{say('Nothing is calculated here.')}</p>}
        <Opening summary={say('Figures of other stations ({length})', { length: others.length })}>
          {others.map((figure) => (
            <Figure key={figure.title} figure={figure} />
          ))}
        </Opening>
      </section>
    </>
  )
}

function List({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) {
  return (
    <div>
      <h3>{title}</h3>
      <ul className={styles.list}>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  )
}

function Figure({ figure: { title, formula, from, source, limit } }: { readonly figure: FigureRule }) {
  return (
    <Opening summary={title}>
      <dl className={styles.figure}>
        <dt>{say('How')}</dt>
        <dd>{formula}</dd>
        <dt>{say('From')}</dt>
        <dd>{from.join('; ')}</dd>
        <dt>{say('Source')}</dt>
        <dd>{source}</dd>
        <dt>{say('Mind')}</dt>
        <dd>{limit}</dd>
      </dl>
    </Opening>
  )
}

function Keys() {
  return (
    <section aria-label={say('Keys')}>
      <h3>{say('Keys')}</h3>
      <dl className={styles.keys}>
        {keyHelp.map(([key, words]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
    </section>
  )
}

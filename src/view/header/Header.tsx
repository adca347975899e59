/** The head of the window: which card, the find box, undo, open, save, paper or chalk. */
import { say } from '../../base/index.ts'
import { CircleHelp, Files, Moon, Package, Redo2, Sun, Undo2 } from 'lucide-react'
import { useStore } from 'zustand'
import { showCases } from '../actions/caseList.ts'
import { redoEdit, undoEdit } from '../actions/edit.ts'
import { openPage } from '../actions/pages.ts'
import { Button } from '../controls/Button.tsx'
import { useBoard, useDesk, usePresent, useScreen } from '../stores/hooks.ts'
import { shownTheme } from '../stores/screenStore.ts'
import { FindBox } from './FindBox.tsx'
import styles from './header.module.css'
import { OpenMenu } from './OpenMenu.tsx'
import { SaveButton } from './SaveButton.tsx'

export function Header() {
  const present = usePresent()
  const board = useBoard()
  return (
    <header className={styles.header}>
      <h1 className={styles.title}>
        {present === undefined ? (
          say('Liftmap')
        ) : (
          <>
            <span>{present.card === undefined ? present.title : say('Card {card}', { card: present.card })}</span>
            <span className={styles.about}>
              {board?.model.name}
              {present.card !== undefined && `: ${present.title}`}
            </span>
          </>
        )}
      </h1>
      <FindBox />
      <div className={styles.buttons}>
        <CasesButton />
        <PartsButton />
        <UndoButtons />
        <OpenMenu />
        <SaveButton />
        <HelpButton />
        <ThemeButton />
      </div>
    </header>
  )
}

function CasesButton() {
  const desk = useDesk()
  return (
    <Button onClick={() => showCases(desk)} aria-haspopup="dialog" aria-keyshortcuts="C" title={say('All cases (C)')}>
      <Files size={16} aria-hidden="true" /> {say('Cases')}
    </Button>
  )
}

/** What is to be bought stands beside the cases: it is asked for daily. */
function PartsButton() {
  const desk = useDesk()
  return (
    <Button
      onClick={() => openPage(desk, 'parts')}
      aria-haspopup="dialog"
      title={say('Parts that this card needs, what the shop has, and what is on order')}
    >
      <Package size={16} aria-hidden="true" /> <span className={styles.word}>{say('Parts')}</span>
    </Button>
  )
}

function UndoButtons() {
  const desk = useDesk()
  const canUndo = useStore(desk.cases, ({ history }) => history !== undefined && history.past.length > 0)
  const canRedo = useStore(desk.cases, ({ history }) => history !== undefined && history.future.length > 0)
  return (
    <>
      <Button
        disabled={!canUndo}
        onClick={() => undoEdit(desk)}
        title={say('Undo the last change to the case (Ctrl Z)')}
      >
        <Undo2 size={16} aria-hidden="true" /> <span className={styles.word}>{say('Undo')}</span>
      </Button>
      <Button
        size="icon"
        disabled={!canRedo}
        onClick={() => redoEdit(desk)}
        aria-label={say('Redo')}
        title={say('Redo (Ctrl Shift Z)')}
      >
        <Redo2 size={16} aria-hidden="true" />
      </Button>
    </>
  )
}

function HelpButton() {
  const desk = useDesk()
  return (
    <Button
      size="icon"
      tone="quiet"
      onClick={() => openPage(desk, 'help')}
      aria-label={say('Help')}
      aria-keyshortcuts="?"
      title={say('Help on this station, and how figures are worked out (?)')}
    >
      <CircleHelp size={16} aria-hidden="true" />
    </Button>
  )
}

function ThemeButton() {
  const desk = useDesk()
  const theme = useScreen(shownTheme)
  const next = theme === 'paper' ? 'chalk' : 'paper'
  const words = next === 'chalk' ? say('Draw in chalk (dark)') : say('Draw on paper (light)')
  return (
    <Button size="icon" aria-label={words} title={words} onClick={() => desk.screen.setState({ chosenTheme: next })}>
      {next === 'chalk' ? <Moon size={16} aria-hidden="true" /> : <Sun size={16} aria-hidden="true" />}
    </Button>
  )
}

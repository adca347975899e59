/** The app shell: header, stations, sheet, why-panel, status line, and what holds for the whole window. */
import { say } from '../base/index.ts'
import { useEffect } from 'react'
import { useStore } from 'zustand'
import { startApp } from './startApp.ts'
import styles from './App.module.css'
import { later, OnceOpen } from './controls/later.tsx'
import { Notices } from './caselist/Notices.tsx'
import { Boundary } from './panels/Boundary.tsx'
import { DropGround } from './panels/DropGround.tsx'
import { Announcer } from './panels/Announcer.tsx'
import { DemoNote } from './panels/DemoNote.tsx'
import { FileMessages } from './controls/FileMessages.tsx'
import { ShelfNotice } from './panels/ShelfNotice.tsx'
import { SheetPane } from './panels/SheetPane.tsx'
import { StationList } from './panels/StationList.tsx'
import { VersionNote } from './panels/VersionNote.tsx'
import { StatusLine } from './panels/StatusLine.tsx'
import { WhyPanel } from './panels/WhyPanel.tsx'
import { Header } from './header/Header.tsx'
import { PageHost } from './pages/PageHost.tsx'
import type { Desk } from './stores/desk.ts'
import { DeskContext, useDesk, useScreen } from './stores/hooks.ts'
import { shownTheme } from './stores/screenStore.ts'

const CaseList = later(async () => (await import('./caselist/CaseList.tsx')).CaseList)
const TourCard = later(async () => (await import('./help/TourCard.tsx')).TourCard)
const StartCase = later(async () => (await import('./start/StartCase.tsx')).StartCase)

export function App({ desk }: { readonly desk: Desk }) {
  useEffect(() => startApp(desk), [desk])
  return (
    <DeskContext value={desk}>
      <WholeWindow />
    </DeskContext>
  )
}

function WholeWindow() {
  const caseId = useStore(useDesk().cases, ({ id }) => id)
  return (
    <Boundary what={say('The page')} drawn={caseId}>
      <Window />
    </Boundary>
  )
}

function Window() {
  const theme = useScreen(shownTheme)
  const casesOpen = useScreen((screen) => screen.casesOpen)
  const startOpen = useScreen((screen) => screen.startOpen)
  const touring = useScreen((screen) => screen.tourStop !== undefined)
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme
  }, [theme])
  return (
    <DropGround>
      <div className={styles.window}>
        <Header />
        <div className={styles.notes}>
          <ShelfNotice />
          <VersionNote />
          <DemoNote />
        </div>
        <StationList />
        <SheetPane />
        <WhyPanel />
        <StatusLine />
      </div>
      <OnceOpen open={casesOpen}>
        <CaseList />
      </OnceOpen>
      <OnceOpen open={startOpen}>
        <StartCase />
      </OnceOpen>
      <PageHost />
      <OnceOpen open={touring}>
        <TourCard />
      </OnceOpen>
      {!casesOpen && <Notices />}
      <FileMessages />
      <Announcer />
    </DropGround>
  )
}

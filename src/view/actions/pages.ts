/** Opens and closes the pages that fill the window. */
import type { PageName } from '../stores/pageNames.ts'
import type { Desk } from '../stores/desk.ts'

export const openPage = (desk: Desk, page: PageName): void =>
  desk.screen.setState({ page, casesOpen: false, startOpen: false })

export const closePage = (desk: Desk): void => desk.screen.setState({ page: undefined })

/** The page of parts as the hand meets it: a list taken in, a line by keyboard, what the plan needs taken, used and ordered. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { openPage } from '../../src/view/actions/pages.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await app.reset()
  const kept = await app.desk.caseShelf.stock.list()
  for (const { id } of kept.ok ? kept.value.items : [])
    await app.desk.caseShelf.stock.change(id, () => ({ ok: true, value: undefined }))
})
afterAll(() => app.close())

const parts = () => page.getByRole('dialog', { name: 'Parts' })
const items = async () => {
  const kept = await app.desk.caseShelf.stock.list()
  return kept.ok ? kept.value.items : []
}
const list =
  'kind,what,package,count,place,source,donor,donor ref\r\nmemory,8 Gbit,180-ball,3,drawer 2,donor,0391,U7\r\n'

test('a list is taken in as CSV, its donor stands beside it, a line is added and found by keyboard', async () => {
  await page.getByRole('button', { name: 'Parts', exact: true }).click()
  const chooser = parts().getByLabelText('File of stock, CSV')
  await userEvent.upload(chooser, new File([list], 'parts.csv', { type: 'text/csv' }))
  await expect.element(parts().getByRole('row', { name: /^memory 8 Gbit 180-ball 3 drawer 2/ })).toBeVisible()
  await expect
    .element(parts().getByRole('region', { name: 'Donors' }))
    .toHaveTextContent(/Card 0391.*U7: memory 8 Gbit/)
  await focusOn(parts().getByRole('button', { name: 'Add' }))
  await userEvent.keyboard('{Enter}gel flux')
  await parts().getByLabelText('Kind').selectOptions('material')
  await focusOn(parts().getByLabelText('On order'))
  await userEvent.keyboard('2{Enter}')
  await expect.element(parts().getByRole('row', { name: /^gel flux/ })).toHaveTextContent('2, no day')
  await parts().getByRole('button', { name: 'gel flux: 2 arrived' }).click()
  await waitUntil(
    () =>
      parts()
        .getByRole('button', { name: /arrived$/ })
        .elements().length === 0,
  )
  expect((await items()).map(({ what, count, ordered }) => [what, count, ordered])).toEqual([
    ['gel flux', 3, 0],
    ['8 Gbit', 3, 0],
  ])
  await userEvent.fill(parts().getByLabelText('Find in the stock'), '0391')
  await waitUntil(
    () =>
      parts()
        .getByRole('row', { name: /^gel flux/ })
        .elements().length === 0,
  )
  const { violations } = await axe.run(document.body, { runOnly: ['wcag2a', 'wcag2aa'] })
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([])
  await userEvent.keyboard('{Escape}')
})

test('a list with a wrong row is refused with that row, and nothing of it is taken in', async () => {
  openPage(app.desk, 'parts')
  const file = new File([`${list}memroy,x,,1,,,,\r\n`], 'parts.csv', { type: 'text/csv' })
  await userEvent.upload(parts().getByLabelText('File of stock, CSV'), file)
  await expect.element(parts().getByRole('alert')).toHaveTextContent(/row 3/)
  expect(await items()).toEqual([])
  await userEvent.keyboard('{Escape}')
})

test('what the plan needs is taken for the card, used, and then stands among its used parts', async () => {
  app.desk.screen.setState({ station: 'plan' })
  await waitUntil(() => app.desk.plan.getState().answer !== undefined)
  const balls = app.desk.plan.getState().answer?.best.materials.find(({ what }) => what.startsWith('solder balls'))
  if (balls === undefined) throw new Error('no balls in the plan')
  const text = `kind,what,count,price\r\nmaterial,"${balls.what}",9000,0.01\r\n`
  openPage(app.desk, 'parts')
  await userEvent.upload(parts().getByLabelText('File of stock, CSV'), new File([text], 'parts.csv'))
  const need = parts().getByRole('region', { name: 'This card needs' })
  await need.getByRole('button', { name: new RegExp(`^Take ${balls.amount} of`) }).click()
  await parts().getByRole('button', { name: balls.what, exact: true }).click()
  const form = parts().getByRole('form', { name: `Change ${balls.what}` })
  await expect.element(form.getByRole('button', { name: /^Put back .* of card/ })).toBeVisible()
  await form.getByRole('button', { name: 'Not now' }).click()
  await need.getByRole('button', { name: /^Used:/ }).click()
  await waitUntil(() => app.desk.cases.getState().history?.present.handBack.usedParts.length === 1)
  expect(app.desk.cases.getState().history?.present.handBack.usedParts).toMatchObject([
    { what: balls.what, count: Number(balls.amount), price: 0.01 },
  ])
  expect((await items()).map(({ count, reserved }) => [count, reserved])).toEqual([[9000 - Number(balls.amount), []]])
  await userEvent.keyboard('{Escape}')
})

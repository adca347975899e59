/** The shop's prices, minutes and limits, each with its reason; a changed one can be set back. */
import { say } from '../../../base/index.ts'
import { useState } from 'react'
import type { Case } from '../../../case/index.ts'
import {
  defaultShopSettings,
  shippedShopSettings,
  type ShopSettingsInput,
  shopSettingsSchema,
} from '../../../plan/index.ts'
import { editCase } from '../../actions/edit.ts'
import { Button } from '../../controls/Button.tsx'
import { NumberField, SelectField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import panel from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { figureName } from './figureNames.ts'
import styles from './plan.module.css'

const sections = [
  { name: 'money', title: say('Rate, values, prices of parts'), unit: '' },
  { name: 'minutes', title: say('Minutes'), unit: 'min' },
  { name: 'materials', title: say('Materials'), unit: '' },
  { name: 'heat', title: say('Heat counts and oven'), unit: '' },
  { name: 'exposure', title: say('Risk to what gets hot in passing'), unit: '' },
  { name: 'rules', title: say('Rules of the order'), unit: '' },
] as const

type Section = (typeof sections)[number]['name']

export function ShopForm() {
  const desk = useDesk()
  const shop = usePresent()?.shop
  const changed = Object.values(shop ?? {}).reduce((sum, figures) => sum + Object.keys(figures ?? {}).length, 0)
  return (
    <Opening
      summary={
        changed === 0
          ? say('Prices and minutes of your shop')
          : say('Prices and minutes: {changed} changed by you', { changed })
      }
    >
      <div data-sources>
        {sections.map(({ name, title, unit }, i) => (
          <Group key={name} open={i === 0} title={title}>
            {Object.entries(shippedShopSettings[name] ?? {}).map(([figure, { reason, source }]) => (
              <Figure
                key={figure}
                section={name}
                name={figure}
                reason={`${reason} (${source})`}
                unit={unit}
                shop={shop}
              />
            ))}
          </Group>
        ))}
      </div>
      {shop !== undefined && (
        <Button onClick={() => editCase(desk, shippedShop)}>{say('Set all back to the shipped figures')}</Button>
      )}
    </Opening>
  )
}

function shippedShop(present: Case): Case {
  const { shop: _, ...rest } = present
  return rest
}

function Group({
  title,
  open,
  children,
}: {
  readonly title: string
  readonly open: boolean
  readonly children: React.ReactNode
}) {
  if (!open) return <Opening summary={title}>{children}</Opening>
  return (
    <div className={panel.section}>
      <h3 className={panel.sub}>{title}</h3>
      {children}
    </div>
  )
}

interface FigureProps {
  readonly section: Section
  readonly name: string
  readonly reason: string
  readonly unit: string
  readonly shop: ShopSettingsInput | undefined
}

const ovens = [
  { value: '125', words: '125 °C' },
  { value: '90', words: '90 °C' },
  { value: '40', words: '40 °C' },
] as const

function Figure({ section, name, reason, unit, shop }: FigureProps) {
  const desk = useDesk()
  const [fault, setFault] = useState<string>()
  const value = numberAt(shop?.[section] ?? {}, name) ?? numberAt(defaultShopSettings[section], name) ?? 0
  const set = (next: number): void => {
    const parsed = withFigure(shop, section, name, next)
    setFault(parsed.fault)
    const { shop: taken } = parsed
    if (taken !== undefined) editCase(desk, (c) => ({ ...c, shop: taken }), `shop ${section} ${name}`)
  }
  return (
    <div className={styles.figure}>
      {name === 'ovenC' ? (
        <SelectField
          label={say('Oven')}
          hint={reason}
          value={ovens.find((oven) => Number(oven.value) === value)?.value ?? '90'}
          options={ovens}
          onChange={(chosen) => set(Number(chosen))}
        />
      ) : (
        <NumberField
          label={figureName(name)}
          hint={reason}
          value={value}
          min={0}
          fault={fault}
          {...(unit === '' ? {} : { unit })}
          onChange={set}
        />
      )}
    </div>
  )
}

function numberAt(record: object, key: string): number | undefined {
  const value: unknown = Object.hasOwn(record, key) ? Reflect.get(record, key) : undefined
  return typeof value === 'number' ? value : undefined
}

/** The overrides with one figure set; what the schema refuses comes back as words. */
function withFigure(
  shop: ShopSettingsInput | undefined,
  section: Section,
  name: string,
  value: number,
): { readonly shop?: ShopSettingsInput; readonly fault: string | undefined } {
  const parsed = shopSettingsSchema.safeParse({ ...shop, [section]: { ...shop?.[section], [name]: value } })
  if (parsed.success) return { shop: parsed.data, fault: undefined }
  return {
    fault: say('Not taken: {message}.', { message: parsed.error.issues[0]?.message ?? say('it is out of range') }),
  }
}

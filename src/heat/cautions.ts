/** Cautions for hot work on one board. They can't be switched off, and defer to local rules and qualified people. */
import { decimals, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { alloyOf, heatAssumptions } from './assumptions.ts'
import type { HeatSetting } from './result.ts'

const HOT = say('common practice, no source')

export interface HeatCaution {
  readonly hazard: 'hot' | 'fumes' | 'lead' | 'solvent' | 'capacitor' | 'moisture' | 'model' | 'rules'
  readonly sentence: string
  readonly source: string
}

/** @param setting the pass that is about to be run; its heights of temperature go into the sentences */
export function heatCautions(setting: HeatSetting, model: BoardModel): HeatCaution[] {
  const hasLead = model.parts.some(({ description }) => heatAssumptions.alloys[alloyOf(description)].hasLead)
  const unknown = model.parts.some(({ description }) => description.jointAlloy === undefined)
  const cautions: HeatCaution[] = [
    {
      hazard: 'hot',
      sentence: say(
        'Air leaves at {airC} °C and the plate is at {preheatC} °C: both burn at once, and the board stays over 60 °C for minutes. Keep the tool in its rest, nothing that burns within half a metre, and eye protection on.',
        { airC: decimals(setting.airC, 0), preheatC: decimals(setting.preheatC, 0) },
      ),
      source: HOT,
    },
    {
      hazard: 'fumes',
      sentence: say(
        'Flux fume sensitises the lungs, the more the hotter it gets (sharply from 250 to 400 °C): work under extraction; a mask is no substitute.',
      ),
      source: say('HSE INDG248 and SIM 03/2002/26'),
    },
    {
      hazard: 'solvent',
      sentence: say(
        'Isopropyl alcohol catches fire from 12 °C up: no solvent near hot tools; let it dry fully before heat, and let the board cool to hand-warm before cleaning.',
      ),
      source: say('NIOSH Pocket Guide npgd0359'),
    },
    {
      hazard: 'capacitor',
      sentence: say(
        'Unplug the card and check that its capacitors are discharged before hot work. Swollen, wet-electrolyte or film capacitors near the jet can vent: shield them or take them off first.',
      ),
      source: HOT,
    },
    {
      hazard: 'moisture',
      sentence: say(
        'Liquid or moisture under a part boils and tears it: dry or bake first (J-STD-033) whenever a body will pass 200 °C or a spill may be under it.',
      ),
      source: say('IPC/JEDEC J-STD-033, in a quotation'),
    },
  ]
  if (hasLead || unknown)
    cautions.push({
      hazard: 'lead',
      sentence: hasLead
        ? say('Joints on this board hold lead: no eating at the bench, wipe dust wet, wash hands, collect the dross.')
        : say(
            'Some joint alloys are not given, and old or reworked joints may hold lead: no eating at the bench, wipe dust wet, wash hands, collect the dross.',
          ),
      source: say('from memory'),
    })
  cautions.push(
    {
      hazard: 'model',
      sentence: say(
        'These temperatures are computed from assumptions, not measured: put a thermocouple at a corner joint and believe it over this page; lift only when every joint is liquid.',
      ),
      source: HOT,
    },
    {
      hazard: 'rules',
      sentence: say(
        'Local rules for hot work, and people qualified for it, take precedence; ask one where you are not.',
      ),
      source: HOT,
    },
  )
  return cautions
}

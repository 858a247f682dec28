//! `serve --make`: a drink made ahead, bottle by bottle.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::{self, Assessment, DatedStore, IdentityQuestion, Which};
use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::drinks::added::{AddedPart, WhyAdded};
use crate::drinks::batch::BatchWater;
use crate::drinks::{self, DrinkBatch, Slush, WaterOfIce};
use crate::house::{House, Store, which_store};
use crate::mixture::chill::let_down;
use crate::shelf_life::Draws;
use crate::solver::Solved;
use crate::solver::target::volume_ml;
use crate::units::{Customs, NumberRange, in_millilitres, readers};
use crate::vocabulary::MeasureSystem;

use super::caution::CautionView;
use super::date::AllergenView;
use super::parts::AmountView;
use super::serve::PouredView;
use super::store::StoreView;
use super::{Report, View};

pub(crate) type BatchReport = Report<DrinkBatchView>;

/// A batch of a drink.
#[derive(Clone, Debug, Serialize)]
pub struct DrinkBatchView {
    pub(crate) glasses: f64,
    /// What one glass takes from the bottle.
    pub(crate) pour: AmountView,
    #[serde(rename = "yield")]
    pub(crate) yields: AmountView,
    pub(crate) abv_pct: Option<f64>,
    pub(crate) bottle_ml: f64,
    /// What goes into each: all that it holds, or less where ice forms in it.
    pub(crate) filled_ml: f64,
    /// Bottles that are full.
    pub(crate) full_bottles: f64,
    /// What a full one weighs, without the glass.
    pub(crate) bottle_g: f64,
    /// What is in the last one that is not full; 0 where all are.
    pub(crate) last_bottle_g: f64,
    /// What goes in, in all and for one bottle.
    pub(crate) lines: Vec<BottledView>,
    #[serde(flatten)]
    pub(crate) water: BatchWater,
    /// What is added for the guest, for one glass.
    pub(crate) at_service: Vec<AddedView>,
    /// The ice that a glass is blended with, the least and the most, grams; null where it is not blended.
    pub(crate) blended_with_g: Option<(f64, f64)>,
    /// How a guest gets it, as it is printed.
    pub(crate) for_a_guest: String,
    pub(crate) freezes_c: Option<f64>,
    /// The share by weight that is ice in the store.
    pub(crate) ice_share: f64,
    pub(crate) slush: Slush,
    /// How it pours there with all the water that its ice may give.
    pub(crate) slush_with_most_water: Slush,
    /// How long it keeps, with all the water that may still go in, to taste.
    pub(crate) store: StoreView,
    /// How long it keeps with no more water than is in it; null where that is the same, or none may go in.
    pub(crate) store_as_filled: Option<StoreView>,
    /// Those of a glass, with what is added for the guest.
    #[serde(flatten)]
    pub(crate) allergens: AllergenView,
    /// Of the bottle, and of a glass.
    pub(crate) cautions: Vec<CautionView>,
    /// What the card of the drink still asks: nothing of it is in the bottle, nor on its card.
    pub(crate) unidentified: Vec<IdentityQuestion>,
    /// The stores of the house out of which it pours.
    pub(crate) pours_out_of: Vec<String>,
    /// The card of what is bottled.
    pub(crate) card: String,
    /// The file that it was written to.
    pub(crate) written: Option<String>,
}

/// A part that is in no bottle.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct AddedView {
    #[serde(flatten)]
    pub(crate) poured: PouredView,
    /// Why it is not.
    pub(crate) why: WhyAdded,
}

/// A line of the bottles.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct BottledView {
    /// What it is called.
    pub of: String,
    /// Grams in all.
    pub mass_g: f64,
    /// Grams in a bottle that is full, whether or not there is one.
    pub(crate) per_bottle_g: f64,
}

impl View for DrinkBatchView {
    const VERB: &'static str = "batch";
    const KEYS: &'static str = "glasses pour yield abv_pct bottle_ml filled_ml full_bottles bottle_g last_bottle_g lines water_g_per_glass water_left_out_g_per_glass whole_inside water_range_g_per_glass ice_inside_g_per_glass weighed_alike outside_balance_g_per_glass glasses_weighed abv_with_least_water_pct abv_with_most_water_pct at_service blended_with_g for_a_guest freezes_c ice_share slush slush_with_most_water store store_as_filled allergens allergens_not_stated allergens_not_stated_for allergens_doubted allergens_say cautions unidentified pours_out_of card written";

    fn stops(&self) -> bool {
        self.cautions.iter().any(CautionView::stops) || !self.store.refusals.is_empty() || !self.unidentified.is_empty()
    }
}

/// What is asked for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AheadAsked<'a> {
    pub(crate) glasses: f64,
    /// Where the water of its ice is.
    pub(crate) dilution: WaterOfIce,
    /// The store by its name; the one that a card is planned for if none is named.
    pub(crate) store: Option<&'a str>,
    /// What a bottle holds; what the house says if nothing is said.
    pub(crate) bottle_ml: Option<f64>,
    /// The day on which the bottles are filled.
    pub(crate) made: NaiveDate,
}

impl AheadAsked<'_> {
    /// As many as a bar can serve (ours).
    pub(crate) const GLASSES: NumberRange = NumberRange::whole(1.0, 100_000.0, "glasses");

    /// What a bottle holds, read.
    pub(crate) fn bottle(written: &str, customs: &Customs) -> Result<f64, String> {
        let volume = readers::volume_by(written, customs)?;
        if volume.value > 0.0 { Ok(in_millilitres(volume)) } else { Err("a bottle holds something".to_owned()) }
    }

    fn store<'h>(&self, house: &'h House, found: &mut Vec<Diagnostic>) -> Result<Option<&'h Store>, ()> {
        let Some(wanted) = self.store else { return Ok(None) };
        let stores = &house.settings.stores;
        if let Some(store) = stores.iter().find(|store| store.name.eq_ignore_ascii_case(wanted)) {
            return Ok(Some(store));
        }
        let title = format!("the house has no store called \"{wanted}\"");
        found.push(Diagnostic::error(Code::BadArgument, title).help(which_store(stores.iter(), wanted)));
        Err(())
    }
}

/// What a bottle holds where neither the house nor the question says it, ml (common practice, no source).
const BOTTLE_ML: f64 = 700.0;

impl DrinkBatchView {
    /// Of a drink, made ahead as it is asked for.
    pub(crate) fn of_drink(
        card: &Card,
        house: &House,
        asked: &AheadAsked<'_>,
        found: &mut Vec<Diagnostic>,
    ) -> Option<Self> {
        let store = asked.store(house, found).ok()?;
        let batch = drinks::batch(card, house, (asked.glasses, asked.dilution), store, found)?;
        // What is added for the guest is in the glass and not in the bottle: its allergens and its cautions are the guest's too.
        let (guest, _) = assessment::undated(&drinks::glass::drink(card, house, &mut Vec::new())?, house);
        let which = store.map_or(Which::Planned, Which::Only);
        let judge = |solved| assessment::assess(solved, house, asked.made, which, Draws::default());
        let (judged, of_judgement) = judge(&batch.solved);
        found.extend(of_judgement);
        let as_filled = batch.as_filled.as_ref().map(|solved| judge(solved).0);
        if any_error(found) {
            return None;
        }
        let bottle_ml = asked.bottle_ml.or(house.settings.bottle.map(in_millilitres)).unwrap_or(BOTTLE_ML);
        let store_as_filled = as_filled.as_ref().and_then(view_of_store);
        let mut view = Self::new(&batch, bottle_ml, (&judged, &guest), house.settings.measures)?;
        let pours = |store: &&Store| Slush::of(drinks::ice_share(batch.solved.bottled(), store)).pours();
        view.pours_out_of = house.settings.stores.iter().filter(pours).map(|store| store.name.clone()).collect();
        view.store_as_filled = store_as_filled.filter(|other| other.says != view.store.says);
        Some(view)
    }

    /// Of a batch in bottles of so many millilitres, judged where it is kept; `None` where it has no volume.
    ///
    /// `guest` is the judgement of a glass, with what is added at the bar: the allergens are those, and the cautions of both.
    fn new(
        batch: &DrinkBatch,
        bottle_ml: f64,
        (judged, guest): (&Assessment, &Assessment),
        measures: Option<MeasureSystem>,
    ) -> Option<Self> {
        let dated: &DatedStore = judged.stores.get(judged.planned)?;
        let solved: &Solved = &batch.solved;
        let liquid = solved.bottled();
        let (ml, grams) = (volume_ml(liquid)?, liquid.total_grams());
        let ice_share = drinks::ice_share(liquid, &dated.store);
        let slush = Slush::of(ice_share);
        let wettest = let_down(liquid, batch.more_water_g * batch.glasses);
        let filled_ml = bottle_ml * slush.fill();
        // What is a hair short of a bottle is a bottle.
        let full_bottles = (ml / filled_ml + 1e-3).floor();
        let bottle_g = grams * filled_ml / ml;
        let last_bottle_g = (grams - full_bottles * bottle_g).max(0.0);
        let added = |of: &AddedPart| AddedView { poured: PouredView::new(&of.part, measures), why: of.why };
        let lines = solved.last().parts.iter().map(|part| BottledView {
            of: part.label.clone(),
            mass_g: part.mass_g,
            per_bottle_g: part.mass_g * bottle_g / grams,
        });
        let mut cautions = CautionView::parted(&judged.cautions).0;
        for caution in CautionView::parted(&guest.cautions).0 {
            if cautions.iter().all(|known| known.code != caution.code) {
                cautions.push(caution);
            }
        }
        Some(Self {
            glasses: batch.glasses,
            pour: AmountView { mass_g: batch.pour.1, volume_ml: Some(batch.pour.0) },
            yields: AmountView::made(solved),
            abv_pct: crate::properties::value_of(crate::properties::TargetKind::Abv, liquid),
            bottle_ml,
            filled_ml,
            full_bottles,
            bottle_g,
            last_bottle_g,
            lines: lines.collect(),
            water: batch.water.clone(),
            at_service: batch.at_service.iter().map(added).collect(),
            blended_with_g: batch.blended_with_g,
            for_a_guest: batch.for_a_guest.clone(),
            freezes_c: batch.freezes_c,
            ice_share,
            slush,
            slush_with_most_water: Slush::of(drinks::ice_share(&wettest, &dated.store)),
            store: StoreView::new(dated, &judged.cautions),
            store_as_filled: None,
            allergens: AllergenView::from(guest),
            cautions,
            unidentified: guest.unidentified.clone(),
            pours_out_of: Vec::new(),
            card: batch.text.clone(),
            written: None,
        })
    }
}

fn view_of_store(judged: &Assessment) -> Option<StoreView> {
    Some(StoreView::new(judged.stores.get(judged.planned)?, &judged.cautions))
}

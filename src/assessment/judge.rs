//! A card and all cards inside it, each judged once, those inside first.

use std::sync::Arc;

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic, listed};
use crate::house::{House, Store};
use crate::safety::{self, Caution, Facts, Storage};
use crate::shelf_life::hurdles::Screened;
use crate::shelf_life::reason::Mark;
use crate::shelf_life::{Asked, Authority, Draws, Filled, Product, Verdict, calendar, verdicts};
use crate::solver::{InnerCard, Solved};
use crate::units::{Temperature, celsius, degrees_celsius};

use super::as_told::as_told_of;
use super::authority::{self, LocalLimits};
use super::left_in::{NotSolved, left_in};
use super::lot::{self, Lot, LotsCounted};
use super::part_kept::PartKept;
use super::product::{self, DateInputs, Inside};
use super::store::{OnceOpened, StoreRefusal, planned, refuse_frozen, take_over_nature};
use super::{DatedStore, airless, batch, claims, facts, gone_stale, lent_sugar, of_lots, ph_not_read, stages, storage};

/// Stronger than this nothing freezes in a bar's freezer, % vol (ours).
const FREEZES_BELOW_ABV: f64 = 20.0;

/// What a card and the cards inside it are judged with.
pub(super) struct Judge<'a> {
    pub house: &'a House,
    pub lot: &'a Lot,
    pub draws: Draws,
    pub local: &'a LocalLimits,
    pub with_bands: bool,
}

/// A card dated with the cards inside it, and the facts that the cards around it take over.
pub(super) struct Judged {
    /// As many as stores were asked for, in their order.
    pub stores: Vec<DatedStore>,
    pub facts: Facts,
    pub cautions: Vec<Caution>,
    pub carried: Vec<Caution>,
    pub found: Vec<Diagnostic>,
    pub readings: Option<String>,
    pub inputs: DateInputs,
    /// The card as its steps have it, where its keys say another thing.
    told: Option<Arc<Solved>>,
}

impl Judged {
    /// Of a product that may be one of two: with the answer of the other in each store where that has the shorter life, and the cautions
    /// of both.
    pub(super) fn shorter_with(mut self, other: Self) -> Self {
        for (own, other) in self.stores.iter_mut().zip(other.stores) {
            let cautions = safety::gather(std::mem::take(&mut own.cautions), other.cautions.clone());
            if other.keeps_for() < own.keeps_for() {
                *own = other;
            }
            own.cautions = cautions;
        }
        self.cautions = safety::gather(self.cautions, other.cautions);
        self
    }
}

/// The cards inside one, as they were judged.
fn inside<'a>(card: &'a Solved, judged: &'a [Option<Judged>]) -> Vec<(&'a InnerCard, &'a Judged)> {
    let of = |inner: &'a InnerCard| Some((inner, judged.get(inner.card.index)?.as_ref()?));
    card.inner.iter().filter_map(of).collect()
}

/// What a card is judged in: the stores, the cards that go into it, for the outermost its lot and the cards below, and how many glasses it is.
#[derive(Clone, Copy)]
struct Around<'a> {
    stores: &'a [Store],
    inner: &'a [(&'a InnerCard, &'a Judged)],
    outermost: Option<(&'a Lot, &'a [(&'a Solved, &'a Judged)])>,
    glasses: Option<f64>,
}

/// How many glasses it is: of a drink one, of one inside another as many as hold what goes into that; of a product, and of a drink
/// in a product, nobody says.
fn glasses(card: &Solved, outermost: &Solved, share: f64) -> Option<f64> {
    (card.card.is_drink() && outermost.card.is_drink()).then_some(1.0 / share)
}

impl Judge<'_> {
    /// In the stores that are asked for, and for its cautions in the one that it is planned for itself: a card that goes
    /// in is kept in its own until then.
    pub(crate) fn judge(&self, solved: &Solved, asked: &[Store]) -> Judged {
        let cards = solved.with_inner();
        let mut stores = asked.to_vec();
        for own in cards.iter().filter_map(|(card, _)| self.own_store(card)) {
            if !stores.contains(own) {
                stores.push(own.clone());
            }
        }
        // The same card in the same stores is the same wherever it goes in.
        let mut judged: Vec<Option<Judged>> = (0..=solved.index).map(|_| None).collect();
        for (card, share) in cards.iter().skip(1).rev() {
            // what stands on a drink goes into no bottle
            let bare = (card.card.is_drink() && !solved.card.is_drink()).then(|| card.ungarnished());
            let of = bare.as_ref().unwrap_or(card);
            let (stores, inner) = (stores.as_slice(), &*inside(card, &judged));
            let around = Around { stores, inner, outermost: None, glasses: glasses(card, solved, *share) };
            judged[card.index] = Some(self.judge_both(of, around));
        }
        let of_card = |card: &Solved| judged.get(card.index).and_then(Option::as_ref);
        let below: Vec<(&Solved, &Judged)> =
            cards.iter().skip(1).filter_map(|(card, _)| Some((*card, of_card(card)?))).collect();
        let lot = Some((self.lot, below.as_slice()));
        let (inner, glasses) = (&*inside(solved, &judged), glasses(solved, solved, 1.0));
        let mut outer = self.judge_both(solved, Around { stores: &stores, inner, outermost: lot, glasses });
        let kept: Vec<(&str, &DatedStore)> = below
            .iter()
            .filter_map(|(card, judged)| {
                let own = self.own_store(card).and_then(|own| stores.iter().position(|store| store == own))?;
                Some((card.name.as_str(), judged.stores.get(own)?))
            })
            .collect();
        let day_one = self.house.settings.day_one;
        outer.stores.iter_mut().for_each(|dated| gone_stale::shorten(dated, self.lot, &kept, day_one));
        outer.stores.truncate(asked.len());
        outer
    }

    /// The store that a card is planned for.
    fn own_store(&self, solved: &Solved) -> Option<&Store> {
        let stores = &self.house.settings.stores;
        planned(solved, stores).and_then(|place| stores.get(place))
    }

    /// One card; of what is taken as strained out, the shorter of with and without it.
    fn judge_both(&self, solved: &Solved, around: Around<'_>) -> Judged {
        let mut judged = self.judge_one(solved, around);
        match left_in(solved, self.house) {
            None => judged,
            Some(Ok(other)) => {
                let of_other = other.inner.iter().zip(around.inner).map(|(of, (_, judged))| (of, *judged));
                let inner = &*of_other.collect::<Vec<_>>();
                judged.shorter_with(self.judge_one(&other, Around { inner, ..around }))
            }
            Some(Err(NotSolved)) => {
                let why = StoreRefusal::own("nobody says what is strained out, and left in it cannot be weighed");
                judged.stores.iter_mut().for_each(|dated| dated.refuse(why.clone()));
                judged
            }
        }
    }

    fn judge_one(&self, solved: &Solved, Around { stores, inner, outermost, glasses }: Around<'_>) -> Judged {
        let (lot, below) = (outermost.map(|(lot, _)| lot), outermost.map_or(&[][..], |(_, below)| below));
        let of_inner = |index: usize| {
            let (_, judged) = inner.iter().find(|(of, _)| of.card.index == index)?;
            judged.told.clone()
        };
        let (told, moved) = match as_told_of(solved, self.house, of_inner) {
            Some(told) => (Some(Arc::new(told.solved)), told.moved),
            None => (None, None),
        };
        let solved = told.as_deref().unwrap_or(solved);
        let mut facts = facts::from_parts(solved, self.house);
        for (_, judged) in inner {
            facts.take_in(&judged.facts);
        }
        // what is made now is by its card; what is poured may be of any lot that stands there
        let is_poured = lot.is_none_or(|lot| lot.counted == LotsCounted::OwnToo);
        let of_lots = match is_poured {
            true => of_lots::add(&mut facts, &solved.name, self.house, self.lot),
            false => Vec::new(),
        };
        let batch = batch::judged_batch(solved, self.house, self.made());
        let inside: Vec<Inside<'_>> = inner.iter().map(|(of, judged)| Inside::new(of, &judged.inputs)).collect();
        let mut inputs = product::date_inputs(solved, self.house, &batch, &facts, &inside);
        if let Some(lot) = lot {
            (inputs.product.spoiled_lot_days, inputs.product.of_lots) = (lot.spoiled_days, lot.of_lots.clone());
        }
        facts::add_product(&mut facts, solved, self.house, &inputs, glasses);
        claims::read(&mut facts, solved);
        // what is made in stages of its own may stand
        match solved.card.is_drink() && solved.stages.len() == 1 {
            true => facts.conclude_glass(),
            false => facts.conclude(),
        }
        airless::read(&mut facts, solved);

        let limits = authority::for_product(self.local, &solved.name);
        let product = &inputs.product;
        let asked = Asked { draws: self.draws, lives: self.with_bands };
        let thawed: Vec<&Store> = stores.iter().filter(|s| !self.stops(s, product)).collect();
        let temperatures: Vec<_> = thawed.iter().map(|s| s.temperature).collect();
        let mut opened = self.opened(product, &temperatures, &limits).into_iter();
        let mut verdicts = verdicts(product, &temperatures, &limits, asked).into_iter();
        let mut bands = self.bands(&temperatures, product, &limits).into_iter();
        let of_another_day = self.lot.untold_leftover(&facts);
        let of_stages = stages::cautions_of_stages(solved, &facts, self.house);
        let own_store = self.own_store(solved);
        // juice of its own may be what is the oldest
        let only = inner.len() == 1 && inputs.product.raw_juice == 0.0;
        let day_one = self.house.settings.day_one;
        let past: Vec<StoreRefusal> = lot
            .iter()
            .flat_map(|lot| {
                inner.iter().filter_map(|(of, judged)| lot.past_part(&of.card.name, only, &judged.stores, day_one))
            })
            .collect();
        let mut own_cautions = Vec::new();
        let mut dates: Vec<DatedStore> = Vec::new();
        for (place, store) in stores.iter().enumerate() {
            let frozen = self.stops(store, product);
            // the day of a part that needs no cold itself is of no concern: the count begins where it goes in (Food Code
            // 3-501.17: the part that needs control and was prepared first)
            let counts = |part: &PartKept| {
                let card = below.iter().find(|(card, _)| part.is_called(&card.name));
                card.and_then(|(_, judged)| judged.stores.get(place)).is_none_or(|dated| dated.by_oldest_part)
            };
            let mut dated = self.one_store(store, if frozen { None } else { verdicts.next() }, product, counts);
            if !frozen {
                (dated.band, dated.opened) = (bands.next(), opened.next());
            }
            for (of, judged) in inner {
                let to_order = solved.card.is_drink() && of.card.card.is_drink();
                take_over_nature(&mut dated, &of.card.name, &judged.stores, to_order);
            }
            let unread = ph_not_read::refusal(&inputs, &dated, limits.control_c());
            past.iter().cloned().chain(unread).chain(of_another_day.clone()).for_each(|why| dated.refuse(why));
            facts::add_store(&mut facts, &dated, solved);
            dated.cautions = safety::gather(safety::evaluate(&facts), of_stages.clone());
            if Some(store) == own_store {
                own_cautions.clone_from(&dated.cautions);
            }
            dates.push(dated);
        }
        let mut counting = batch.measured.clone();
        if inputs.read.is_some_and(|read| !read.counts()) {
            counting.ph = None;
        }
        let with_it = |of: &InnerCard| of.card.card.is_drink() && solved.card.is_drink();
        let carry = |(of, judged): &(&InnerCard, &Judged)| match with_it(of) {
            true => safety::carry_with_it(&of.card.name, &judged.cautions),
            false => safety::carry(&of.card.name, &judged.cautions),
        };
        let carried: Vec<Caution> = inner.iter().flat_map(carry).collect();
        refuse_frozen(&mut dates, &carried);
        let mut found = batch.found;
        found.extend(of_lots);
        found.extend(inputs.read.and_then(|read| read.objection()).map(|said| {
            let at = solved.card.measured.ph.map(|ph| ph.span);
            let said = Diagnostic::warning(Code::ReadingDiffers, said);
            match at {
                Some(span) => said.at(span, "this reading").in_file(&solved.card.file),
                None => said.in_file(&solved.card.file),
            }
        }));
        found.extend(inputs.unweighed_alkali.map(|alkali| {
            let said = format!("a step puts {alkali} in, and no line weighs it: the pH is not known");
            let help = format!("write it among the parts with its weight: \"{alkali}\" = \"… g\"");
            Diagnostic::warning(Code::NotStated, said).help(help).in_file(&solved.card.file)
        }));
        found.extend(moved);
        found.extend(lent_sugar::questions(solved, self.house));
        found.extend(inputs.put_in_cold.first().map(|first| {
            let go = if inputs.put_in_cold.len() == 1 { "goes" } else { "go" };
            let called = listed(&inputs.put_in_cold);
            let said = format!("by the steps {called} {go} in behind the heat: dated as not heated");
            let help = format!("where it was hot too, say so in a step: \"add the {first}, heat again\"");
            Diagnostic::warning(Code::NotStated, said).help(help).in_file(&solved.card.file)
        }));
        for diagnostic in inner.iter().flat_map(|(_, judged)| &judged.found) {
            if !found.contains(diagnostic) {
                found.push(diagnostic.clone());
            }
        }
        Judged {
            cautions: safety::gather(own_cautions, carried.clone()),
            carried,
            stores: dates,
            facts,
            found,
            readings: batch::in_words(&counting),
            inputs,
            told,
        }
    }

    fn made(&self) -> Option<NaiveDate> {
        Some(self.lot.made).filter(|day| *day != NaiveDate::default())
    }

    /// A freezer stops the clock, but not of what is too strong to freeze.
    fn stops(&self, store: &Store, product: &Product) -> bool {
        storage(store) == Storage::Frozen && product.abv_pct < FREEZES_BELOW_ABV
    }

    /// The shares of lots at a degree more and a degree less, for each store that is not frozen.
    fn bands(&self, stores: &[Temperature], product: &Product, limits: &Authority) -> Vec<(Vec<f64>, Vec<f64>)> {
        if !self.with_bands {
            return Vec::new();
        }
        let asked = Asked { draws: self.draws, lives: true };
        let lives_at = |more: f64| {
            let moved: Vec<_> = stores.iter().map(|&t| celsius(degrees_celsius(t) + more)).collect();
            verdicts(product, &moved, limits, asked).into_iter().map(|v| v.lives_days)
        };
        lives_at(1.0).zip(lives_at(-1.0)).collect()
    }

    /// What is left of the life once it is opened, for each store that is not frozen; nothing where opening changes
    /// nothing: of what was not filled hot and closed, anything may have got in already.
    fn opened(&self, product: &Product, temperatures: &[Temperature], limits: &Authority) -> Vec<OnceOpened> {
        if product.filled != Filled::HotClosed || product.opened {
            return Vec::new();
        }
        let product = Product { opened: true, ..product.clone() };
        let asked = Asked { draws: self.draws, lives: false };
        verdicts(&product, temperatures, limits, asked).iter().map(OnceOpened::from_verdict).collect()
    }

    fn one_store(
        &self,
        store: &Store,
        verdict: Option<Verdict>,
        product: &Product,
        counts: impl Fn(&PartKept) -> bool,
    ) -> DatedStore {
        let days = verdict.as_ref().and_then(|v| v.days);
        let legal = verdict.as_ref().and_then(|v| v.legal_days);
        let control = verdict.as_ref().is_some_and(|v| v.hurdles.screened == Screened::Control);
        let by_oldest_part = control || product.raw_juice > 0.0;
        let start = self.lot.start(by_oldest_part, counts);
        DatedStore {
            store: store.clone(),
            days,
            date: days.and_then(|d| calendar::last_day(start, d, legal, self.house.settings.day_one)),
            mark: verdict.as_ref().map_or(Mark::None, |v| v.mark),
            tier: verdict.as_ref().and_then(|v| v.tier),
            decided_by: verdict.as_ref().and_then(|v| v.decided_by.clone()),
            refused: verdict.iter().flat_map(|v| v.refusals()).map(StoreRefusal::own).collect(),
            cautions: Vec::new(),
            band: None,
            opened: None,
            left_when_thawed: None,
            freezer_days: lot::freezer_days(product),
            raw_juice: product.raw_juice > 0.0,
            by_oldest_part,
            verdict,
        }
    }
}

//! `label`: what stands on the label of a lot, and what has none.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::{Assessment, IdentityQuestion, most_water_g};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::lots::due::{Soon, soon};
use crate::lots::event::UseBy;
use crate::lots::record::date_in;
use crate::lots::reprint::allergens;
use crate::lots::{LotStanding, LotState};
use crate::mixture::chill::let_down;
use crate::properties::{TargetKind, value_of};
use crate::safety::label::states_strength;
use crate::safety::warnings::{LabelWarning, warnings};
use crate::safety::{Level, Market};
use crate::solver::Solved;

use super::guest::Guest;
use super::{Report, View};

pub(crate) type LabelReport = Report<LabelView>;

/// Everything on a label, before it is given a size.
#[derive(Clone, Debug, Serialize)]
pub struct LabelView {
    pub(crate) product: String,
    pub(crate) house: Option<String>,
    /// Its code in the book; none of what is not in it.
    pub(crate) lot: Option<String>,
    pub(crate) made: NaiveDate,
    pub(crate) maker: Option<String>,
    pub(crate) store: String,
    pub(crate) opened: Option<NaiveDate>,
    /// The day of the book, or of `date`; never computed here.
    pub(crate) use_by: UseBy,
    pub(crate) allergens: Vec<String>,
    /// % vol, where the law of a market of the house wants it.
    pub(crate) abv_pct: Option<f64>,
    /// Between which strengths it is, % vol, where heat may have driven alcohol off and nobody has read it: then none is printed.
    pub(crate) abv_between_pct: Option<[f64; 2]>,
    /// The same with all the water that may still go into the bottle, to taste; null where none may.
    pub(crate) abv_with_most_water_pct: Option<f64>,
    pub(crate) raw_juice: bool,
    /// How a guest gets what is bottled, where its card says so.
    pub(crate) for_a_guest: Option<String>,
    /// What of allergens goes in for a guest and is not in the bottle.
    pub(crate) allergens_for_a_guest: Vec<String>,
    /// What the law of a market wants said, and the habit of the trade.
    pub(crate) warnings: Vec<LabelWarning>,
    /// Whether the house names no market, and a statement is on it for that alone.
    any_market: bool,
    /// How many containers there are to label.
    pub(crate) containers: u32,
}

impl View for LabelView {
    const VERB: &'static str = "label";
    const KEYS: &'static str = "product house lot made maker store opened use_by allergens abv_pct abv_between_pct abv_with_most_water_pct raw_juice for_a_guest allergens_for_a_guest warnings any_market containers";
}

fn none(why: String, help: &str) -> Diagnostic {
    Diagnostic::error(Code::NoLabel, format!("no label: {why}")).help(help.to_owned())
}

/// How allergens are stated.
const READ_LABELS: &str = "read each label into larder.toml: [ingredient.\"its name\"] like = \"its name\", allergens = [\"milk\"], or [] where it brings none";

fn not_stated(judged: &Assessment) -> Vec<String> {
    judged.allergens_open.iter().chain(&judged.allergens_doubted).cloned().collect()
}

/// Why a judged product has no label whatever its date is.
fn refused(judged: &Assessment, allergens_not_stated: &[String]) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> =
        // who reads a label cannot ask
        judged.cautions.iter().filter(|c| c.severity == Level::Stop).map(|stop| none(format!("STOP {stop}"), "do not serve it; stillroom date says why")).collect();
    // a limit of one serving alone is one of the body: nobody who reads the bottle knows how much of it is too much
    found.extend(judged.doses.iter().filter(|dose| dose.may_harm()).map(|dose| {
        none(
            format!("a serving may hold more {} than it should: {dose}", dose.substance),
            "put in less of it, or write how much is served: serving = \"2 ml\"",
        )
    }));
    found.extend(judged.unidentified.iter().map(IdentityQuestion::diagnostic));
    if !judged.unidentified.is_empty() {
        found.push(none("what is in it is an open question".to_owned(), "state what it is, and record it anew"));
    }
    if !allergens_not_stated.is_empty() {
        let why = format!("its allergens are not stated: {}", allergens_not_stated.join(", "));
        found.push(none(why, READ_LABELS));
    }
    found
}

/// The card of the drink is gone: what is added for its guest is known by the words of the bottle's card alone.
fn no_drink(solved: &Solved, house: &House) -> Option<Diagnostic> {
    let pours = solved.card.pours.as_deref().filter(|pours| house.read_card(pours).is_none())?;
    let title = format!("the house has no card `{pours}`: what its guest gets beside the bottle is not known in full");
    let help = format!("ask what is added, and for its allergens; or write the card of it again: name = {pours:?}");
    Some(Diagnostic::warning(Code::NotStated, title).help(help))
}

/// Nothing is printed while nobody has stated the allergens of what is added for a guest.
fn open_for_a_guest(guest: &Guest, judged: &Assessment) -> Option<Diagnostic> {
    let added = guest.not_stated_beside(&not_stated(judged));
    let why = format!("the allergens of what is added for a guest are not stated: {}", added.join(", "));
    (!added.is_empty()).then(|| none(why, READ_LABELS))
}

fn undated(use_by: &UseBy) -> Option<Diagnostic> {
    let is_dated = use_by.day.is_some() || use_by.days_left_when_thawed.is_some();
    let why = match &use_by.refused {
        Some(why) => why.as_str(),
        None if is_dated => return None,
        None => "nothing says by when it is to be used",
    };
    // what nobody has told can be told; what is refused a date is not kept
    let help = match (use_by.refused.is_some(), use_by.not_told) {
        (true, false) => "throw it away, and what it went into: stillroom recall LOT",
        (_, true) => "tell what is missing: stillroom tell LOT \"PART=DAY\"",
        (false, false) => "record it, and its days are counted where it stands; of a lot: stillroom move LOT freezer",
    };
    Some(none(format!("it has no date: {why}"), help))
}

impl LabelView {
    /// The label of a lot on a day: date and allergens as the book has them, the rest as `solved` and `judged` were made
    /// again from its kept sheet. `since` is what is known now of allergens that were not stated then: it settles what was open, and
    /// takes none away. `house` is the one that prints it.
    pub(crate) fn of_lot(
        lot: &LotState,
        (solved, judged): (&Solved, &Assessment),
        since: Option<&Assessment>,
        house: &House,
        on: NaiveDate,
    ) -> (Option<Self>, Vec<Diagnostic>) {
        let of = &lot.recorded;
        let open = since.map_or_else(|| of.allergens_not_stated.clone(), not_stated);
        let allergens = allergens(&of.allergens, since.map_or(&[], |now| now.allergens.as_slice()));
        let mut found = refused(judged, &open);
        let guest = Guest::of(&solved.card, house);
        found.extend(open_for_a_guest(&guest, judged));
        found.extend(undated(&lot.use_by));
        let gone = match lot.standing {
            LotStanding::InUse => None,
            LotStanding::UsedUp => Some(format!("lot {} was used up on {}", lot.lot, lot.since)),
            LotStanding::Discarded => Some(format!("lot {} was thrown away on {}", lot.lot, lot.since)),
        };
        let must_go = soon(lot, on) == Some(Soon::MustGo);
        let past = must_go.then_some(()).and_then(|()| match (&lot.pulled, lot.use_by.day) {
            (Some(why), _) => Some(format!("lot {} must go: {why}", lot.lot)),
            (None, Some(day)) => Some(format!("lot {} was to be used by {day}", lot.lot)),
            // why it is refused a date is said already
            (None, None) if lot.use_by.refused.is_some() => None,
            (None, None) => Some(format!("lot {} must go: it stood in the freezer too long", lot.lot)),
        });
        found.extend(gone.or(past).map(|why| none(why, "stillroom due shows what is there")));
        if !found.is_empty() {
            return (None, found);
        }
        let read = of.readings.iter().find(|read| read.of == TargetKind::Abv).map(|read| read.value);
        let containers = of.filled.map_or(1, |(count, _)| count);
        let view = Self {
            lot: Some(lot.lot.clone()),
            made: of.made,
            maker: of.maker.clone(),
            store: lot.store.clone(),
            opened: lot.opened,
            use_by: lot.use_by.clone(),
            allergens,
            containers,
            ..Self::of_product(solved, (judged, &guest), house, read.or(of.abv_pct))
        };
        found.extend(guest.of_lots);
        found.extend(no_drink(solved, house));
        (Some(view), found)
    }

    /// The label of what is not in the book, in the one store that was judged.
    pub fn of_card(
        solved: &Solved,
        judged: &Assessment,
        house: &House,
        containers: u32,
    ) -> (Option<Self>, Vec<Diagnostic>) {
        let mut found = refused(judged, &not_stated(judged));
        let guest = Guest::of(&solved.card, house);
        found.extend(open_for_a_guest(&guest, judged));
        let use_by = date_in(judged);
        found.extend(undated(&use_by));
        let view = Self {
            containers,
            use_by,
            ..Self::of_product(solved, (judged, &guest), house, value_of(TargetKind::Abv, solved.bottled()))
        };
        let view = Some(view).filter(|_| found.is_empty());
        found.extend(guest.of_lots);
        found.extend(no_drink(solved, house));
        (view, found)
    }

    fn of_product(
        solved: &Solved,
        (judged, guest): (&Assessment, &Guest),
        house: &House,
        abv_pct: Option<f64>,
    ) -> Self {
        let markets = &house.settings.markets;
        let raw_juice = judged.product.raw_juice > 0.0;
        // not known is not none
        let abv = abv_pct.unwrap_or(0.0);
        let water_g = most_water_g(solved);
        let watered =
            (water_g > 0.0).then(|| value_of(TargetKind::Abv, &let_down(solved.bottled(), water_g))).flatten();
        let store = judged.stores.first();
        let stated = abv_pct.filter(|abv| states_strength(markets, *abv));
        let abv_between_pct = stated.and_then(|abv| judged.strength_between(abv));
        Self {
            product: solved.name.clone(),
            house: house.settings.name.clone(),
            lot: None,
            made: judged.lot.made,
            maker: None,
            store: store.map(|dated| dated.store.name.clone()).unwrap_or_default(),
            opened: None,
            use_by: UseBy::default(),
            allergens: judged.allergens.clone(),
            abv_pct: stated.filter(|_| abv_between_pct.is_none()),
            abv_between_pct,
            abv_with_most_water_pct: watered.filter(|_| stated.is_some() && abv_between_pct.is_none()),
            raw_juice,
            for_a_guest: solved.card.for_a_guest.clone(),
            allergens_for_a_guest: guest.allergens_beside(&judged.allergens),
            warnings: Vec::new(),
            any_market: false,
            containers: 1,
        }
        .with_warnings(markets, (judged, guest), solved.card.keep.for_sale, abv)
    }

    fn with_warnings(
        self,
        markets: &[Market],
        (judged, guest): (&Assessment, &Guest),
        for_sale: Option<bool>,
        abv: f64,
    ) -> Self {
        // who takes a medicine drinks the glass
        let mut held = judged.warned.clone();
        for of_glass in &guest.warned {
            if held.iter().all(|known| known.of != of_glass.of) {
                held.push(of_glass.clone());
            }
        }
        let warnings = warnings(markets, self.raw_juice, &held, abv, for_sale);
        // a habit of the trade hangs on no market
        let is_of_one = warnings.iter().any(|warning| !warning.market.is_any());
        Self { any_market: markets.is_empty() && is_of_one, warnings, ..self }
    }

    pub(crate) fn of_any_market(&self) -> bool {
        self.any_market
    }
}

//! Where the keys of a card and its steps tell two things: a heat that a step denies, bottles filled hot that stand open, milk that
//! nobody strains off, water that nothing drives off.

use uom::si::time::minute;

use crate::card::{AskedOf, Card, OpenLine, Part, Stage};
use crate::diagnostic::{Span, Spanned};
use crate::house::House;
use crate::mixture::Component;
use crate::paste;
use crate::safety::step_words::StepWord;
use crate::safety::{names, steps};
use crate::solver::Solved;
use crate::spelling::words;
use crate::units::spans::{SpanEnd, time};
use crate::units::told::first_told;
use crate::units::{Literal, degrees_celsius};
use crate::vocabulary::{Allergen, Kind, Tag, Washed};

use super::heated::{HOT_C, is_hot_clause, put_in_cold, raw_parts};
use super::told_against::{Against, SaidClause, said};

/// As much of the water as this does not go by itself (ours).
const DRIVEN_OFF: f64 = 0.2;
/// Degrees that a step tells are another heat than that of the key where they are so much below it, °C (ours).
const ANOTHER_HEAT: f64 = 5.0;
/// What is no hotter than this is a warm room, °C (ours).
const NO_HEAT_C: f64 = 35.0;

/// What has to be settled before its date rests on either.
pub(super) fn asked(solved: &Solved, house: &House) -> Vec<OpenLine> {
    let card: &Card = &solved.card;
    let told = || card.all_stages().flat_map(|stage| &stage.steps).chain(&card.steps);
    let said = said(told());
    let open = |(value, span): (String, Span)| OpenLine { asked: Spanned { value, span }, of: AskedOf::Steps };
    let name = card.name.span;
    // what the steps put in behind the heat under the name of its line is dated as not heated, and needs no question
    let is_settled = !put_in_cold(solved, house).is_empty();
    let hot = hot_filled_cold(card, &said);
    let hot = hot.or_else(|| raw_behind_heat(card, &said)).or_else(|| only_some(solved, house, &said));
    let hot = hot.filter(|_| !is_settled);
    let found = [solids_heated(solved), denied(card, &said), lower(card, &said), driven_off(card), washed(card, &said)];
    let at_name = hot.into_iter().chain(of_old(&said)).map(|value| (value, name));
    found.into_iter().flatten().chain(at_name).map(open).collect()
}

/// Heat by its key, and no step that heats but one that says that nothing is.
fn denied(card: &Card, said: &[SaidClause<'_>]) -> Option<(String, Span)> {
    let (heated, to) = heat(card)?;
    if said.iter().any(|said| steps::heats_all(said.text)) {
        return None;
    }
    let cold = said.iter().find(|said| steps::denies_heat(said.text) || said.says(Against::Cold))?;
    Some((format!("heated says {to:.0} °C, and a step says \"{}\": which is done?", cold.step), heated))
}

/// No heat by its key, and a step that simmers what a straining left, wet with spirit.
fn solids_heated(solved: &Solved) -> Option<(String, Span)> {
    let card = &solved.card;
    let stage = card.all_stages().find(|stage| stage.not_heated.is_some())?;
    let is_strong = solved.last().parts.iter().any(|part| part.found.per_gram.grams_of(Component::Ethanol) > 0.0);
    let is_strained = stage.parts.iter().any(Part::is_strained);
    let told = stage.steps.iter().chain(&card.steps);
    let step = paste::heats_solids(told, steps::heats_all).filter(|_| is_strong && is_strained)?;
    let asks = format!(
        "heated says no, and a step says \"{step}\": the solids still hold spirit. Write that pan as a [[stage]] with its own heated and \
         steps, and the first liquid as another"
    );
    Some((asks, stage.not_heated?))
}

/// The first heat by a key, with its place.
fn heat(card: &Card) -> Option<(Span, f64)> {
    let heated = card.all_stages().find_map(|stage| stage.heated)?;
    Some((heated.span, degrees_celsius(heated.value.to)))
}

/// Heat by its key, and the steps tell of a lower one and of none besides, or of no time at it.
fn lower(card: &Card, said: &[SaidClause<'_>]) -> Option<(String, Span)> {
    let key = card.all_stages().find_map(|stage| stage.heated).filter(|_| card.stages.is_empty())?;
    let to = degrees_celsius(key.value.to);
    let held = key.value.hold.map_or(0.0, |hold| hold.get::<minute>());
    let which = |said: &SaidClause<'_>| {
        let held = if held > 0.0 { format!(" for {held:.0} min") } else { String::new() };
        (format!("heated says {to:.0} °C{held}, and a step says \"{}\": which is done?", said.step), key.span)
    };
    let degrees = |said: &SaidClause<'_>| {
        let reading = |literal| match literal {
            Literal::Temperature(t) => Some(degrees_celsius(t)),
            _ => None,
        };
        first_told(&said.written, reading)
            .map(|(_, t)| t)
            .filter(|_| !said.says(Against::Cools) && !said.says(Against::Served))
    };
    let is_lower = |t: f64| t > NO_HEAT_C && t < to - ANOTHER_HEAT;
    let is_as_told = |said: &SaidClause<'_>| match degrees(said) {
        Some(t) => t >= to - ANOTHER_HEAT,
        None => steps::heats_all(said.text),
    };
    if let Some(at_once) = said.iter().find(|said| held >= 1.0 && said.says(Against::Straight)) {
        return Some(which(at_once));
    }
    let below = said.iter().find(|said| degrees(said).is_some_and(is_lower))?;
    (!said.iter().any(is_as_told)).then(|| which(below))
}

/// Filled hot by its key, and the steps let it cool first, leave the bottles open or put something into each.
fn hot_filled_cold(card: &Card, said: &[SaidClause<'_>]) -> Option<String> {
    if card.keep.hot_filled != Some(true) {
        return None;
    }
    let against = [Against::Open, Against::Unclean];
    let is_hot = |said: &SaidClause<'_>| said.says(Against::Hot) || is_hot_clause(said.text);
    // "Cool, bottle": cold by then; "cool, reheat, bottle hot" is not, nor is what is cooled in its bottle
    let cooled = || {
        let mut is_cold = false;
        said.iter().find(|said| {
            let is_next_day = said.says(Against::NextDay);
            let cools = said.cools_first() && is_cooled_through(said);
            is_cold |= cools || is_next_day;
            is_cold &= !is_hot(said) || steps::heats_all(said.text) && said.says(Against::Cools);
            is_cold && said.says(Against::Fills) || is_next_day && said.says(Against::Closes)
        })
    };
    let in_each =
        |said: &&SaidClause<'_>| said.says(Against::InEach) && !said.text.contains(|c: char| c.is_ascii_digit());
    let is_against = |said: &&SaidClause<'_>| said.fills_cold() || against.iter().any(|list| said.says(*list));
    let iced = || {
        let comes_in = |said: &SaidClause<'_>| {
            said.says(Against::Ice) && !said.says(Against::IceRound) && !said.says(Against::Served)
        };
        let filled = said.iter().rposition(|said| said.says(Against::Fills))?;
        said.iter().take(filled + 1).find(|said| comes_in(said))
    };
    let cold = said.iter().find(is_against).or_else(cooled).or_else(iced);
    let which = |said: &SaidClause<'_>| format!("fill says hot, and a step says \"{}\": which is done?", said.step);
    cold.map(which).or_else(|| {
        let said = said.iter().filter(|said| !said.says(Against::Fills) && !said.says(Against::Headroom)).find(in_each)?;
        Some(format!(
            "a step says \"{}\", and fill says hot: what was not heated there is not counted; heat it with the rest, or fill cold",
            said.step
        ))
    })
}

const TOPPED_UP: &str = "a bottle that is topped up is as old as what was in it. Have the step say that each batch begins in a \
                         clean, empty bottle; what goes in of an older one is a line of [parts]";
const OLD_PART: &str = "a date counts from what is oldest in it, and what is past its own has none. Take it fresh and have the step \
                        say so; the day of a lot is told with --oldest-part";

/// What goes to the rest of an older batch, or is made of what is past its date, is as old as that.
fn of_old(said: &[SaidClause<'_>]) -> Option<String> {
    let puts_in = |said: &SaidClause<'_>| said.says(Against::PutsIn) || said.says(Against::Refills);
    let discards = |said: &SaidClause<'_>| {
        words(said.text).iter().any(|word| StepWord::Discard.has(word) || StepWord::Throwing.has(word))
    };
    let is_topped_up =
        |said: &SaidClause<'_>| said.says(Against::ToppedUp) || said.says(Against::LastBatch) && puts_in(said);
    let asks = |said: &SaidClause<'_>| {
        is_topped_up(said).then_some(TOPPED_UP).or_else(|| said.says(Against::OldPart).then_some(OLD_PART))
    };
    let (said, asks) = said.iter().filter(|said| !discards(said)).find_map(|said| Some((said, asks(said)?)))?;
    Some(format!("a step says \"{}\": {asks}", said.step))
}

/// What cools so long, or so far, is hot no more.
fn is_cooled_through(said: &SaidClause<'_>) -> bool {
    /// A pan stays hot for so long (ours), seconds.
    const STAYS_HOT_S: f64 = 900.0;
    let hot = |literal| matches!(literal, Literal::Temperature(t) if degrees_celsius(t) >= HOT_C).then_some(());
    let is_short = time(&said.written, SpanEnd::Most).is_some_and(|told| told.seconds < STAYS_HOT_S);
    !is_short && first_told(&said.written, hot).is_none()
}

/// Heat by its key, and juice or herb that the steps put in at the end or once it has cooled.
fn raw_behind_heat(card: &Card, said: &[SaidClause<'_>]) -> Option<String> {
    card.last.heated.filter(|_| card.stages.is_empty())?;
    let is_raw = |said: &SaidClause<'_>| {
        let tags = &steps::read(said.text).found.tags;
        said.says(Against::Juice) || tags.contains(&Tag::RawJuice) || tags.contains(&Tag::FreshPlant)
    };
    let is_juice = |said: &SaidClause<'_>| said.says(Against::Juice) || said.says(Against::Fruit);
    // "Juice last, cold": no verb, and one clause may say of the other when
    let bare = |of: &SaidClause<'_>| {
        let mut all = said.iter().filter(|said| std::ptr::eq(said.step, of.step) && said.is_bare());
        let when = |said: &SaidClause<'_>| said.says(Against::Late) || said.says(Against::GoesInCold);
        is_juice(of) && of.is_bare() && all.any(when)
    };
    let tops = |said: &SaidClause<'_>| {
        said.says(Against::Tops) && !said.says(Against::Served) && (is_raw(said) || said.says(Against::Squeezed))
    };
    let (mut has_cooled, mut is_off) = (false, false);
    let late = said.iter().find(|said| {
        let cools = said.says(Against::Cools) && !said.says(Against::Fills) || said.is_cold_by_then();
        let is_hot = is_hot_clause(said.text);
        has_cooled = cools || has_cooled && !is_hot;
        is_off = said.says(Against::OffHeat) || is_off && !is_hot;
        let is_cold = has_cooled || said.says(Against::Late) || said.says(Against::GoesInCold);
        // a leaf in a pan that was just taken off is scalded; juice cools it
        (is_cold && is_raw(said) || is_off && said.says(Against::Juice)) && said.says(Against::PutsIn)
            || is_juice(said) && said.says(Against::StaysRaw)
            || tops(said)
            || bare(said)
    })?;
    let hotter = said.iter().skip_while(|said| !std::ptr::eq(*said, late)).skip(1).any(|said| is_hot_clause(said.text));
    (!hotter).then(|| not_of_all(late))
}

fn not_of_all(said: &SaidClause<'_>) -> String {
    format!(
        "heated is of all of it, and a step says \"{}\": was that heated too? Say \"heat again\" behind it; else write what was \
         heated as a stage of its own",
        said.step
    )
}

/// "Only the sugar and water are heated": heat by its key of all of it, and what needs it is not named.
fn only_some(solved: &Solved, house: &House, said: &[SaidClause<'_>]) -> Option<String> {
    let card = &solved.card;
    card.last.heated.filter(|_| card.stages.is_empty() && !raw_parts(solved).is_empty())?;
    let is_plain = |word: &str| {
        let kind = house.larder.find(word).and_then(|known| known.kind);
        matches!(kind, Some(Kind::Sugar | Kind::Water))
    };
    let names_raw = |said: &SaidClause<'_>| {
        let own: Vec<String> = raw_parts(solved).iter().flat_map(|part| words(&part.label)).collect();
        said.says(Against::Juice) || words(said.text).iter().any(|word| own.contains(word))
    };
    let only = said.iter().find(|said| {
        let heats = steps::heats_all(said.text) || said.says(Against::Heated);
        let is_syrup = said.says(Against::OnlySyrup) && heats && !names_raw(said);
        is_syrup
            || said.says(Against::Only)
                && heats
                && words(said.text).iter().any(|word| is_plain(word))
                && !names_raw(said)
    })?;
    Some(not_of_all(only))
}

/// Milk or fat that a drink is washed with, and that the steps leave in.
fn washed(card: &Card, said: &[SaidClause<'_>]) -> Option<(String, Span)> {
    let (stage, washed) = card.all_stages().find_map(|stage: &Stage| Some((stage, stage.washed?)))?;
    let labels: Vec<String> = card.all_parts().flat_map(|(_, part)| words(&part.label.value)).collect();
    let more_milk = |said: &SaidClause<'_>| {
        let is_of_list = words(said.text)
            .iter()
            .any(|word| labels.contains(word) && names::find(word).allergens.contains(&Allergen::Milk));
        let is_milk = steps::read(said.text).found.allergens.contains(&Allergen::Milk);
        said.says(Against::PutsIn) && is_milk && (!is_of_list || said.says(Against::Late))
    };
    let stays = |said: &&SaidClause<'_>| {
        let not_strained = said.says(Against::NotStrained) && !said.says(Against::Until);
        said.says(Against::KeptIn) || not_strained || washed == Washed::Milk && more_milk(said)
    };
    let left = said.iter().find(stays)?;
    let span = stage.name.as_ref().map_or(card.name.span, |name| name.span);
    Some((format!("washed says that it is strained off, and a step says \"{}\": which is done?", left.step), span))
}

/// Water that the key of its loss drives off, and no step.
fn driven_off(card: &Card) -> Option<(String, Span)> {
    let told = || card.all_stages().flat_map(|stage| &stage.steps).chain(&card.steps);
    let is_driven = |stage: &&Stage| stage.loss.evaporated.is_some_and(|share| share.value >= DRIVEN_OFF);
    let stage = card.all_stages().find(is_driven).filter(|stage| stage.heated.is_none())?;
    if told().next().is_none() || told().any(|step| steps::drives_off(step)) {
        return None;
    }
    let share = stage.loss.evaporated?;
    let percent = 100.0 * share.value;
    let asks =
        format!("evaporated says {percent:.0} % of the water, and no step boils, reduces or dries: how does it go?");
    Some((asks, share.span))
}

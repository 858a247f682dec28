//! A yield that a card states beside amounts that decide one: whether they agree, and what takes the rest.

use crate::card::{Card, Makes};
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::input::key;
use crate::larder::{Form, Ingredient};
use crate::mixture::Component;
use crate::units::display::{grouped, short};
use crate::units::in_grams;

use super::super::by_hand;
use super::super::evaporation;
use super::super::resolve::Material;
use super::super::target::volume_ml;
use super::super::{Solved, SolvedPart};
use super::cook::{Cook, Options, asked_ml};
use super::stages::FAR;

/// A yield may be this far above what the parts can make (rounding of a card), common practice, no source.
const YIELD_ROUNDING: f64 = 0.02;
/// Losses that a card does not state may take this much before it is worth a note.
const UNSTATED_LOSS: f64 = 0.15;
/// So much less than a card says, as a share, is still that card: people write what they poured together, before the sugar dissolved and the
/// solids drank (common practice, no source).
const SPOKEN: f64 = 0.25;

/// "About 700 ml" is as near as this, as a share (ours).
const ABOUT: f64 = 0.15;

impl Cook<'_> {
    /// Where the amounts alone give a size and the card states one too: do they agree?
    pub(super) fn compare_yield(&mut self, card: &Card, solved: &Solved, options: &Options) {
        if options.size.is_some() && card.makes.is_none() {
            return;
        }
        let Some(makes) = &card.makes else { return };
        let (asked, gives, unit) = match makes.value {
            Makes::Mass(m) => (in_grams(m), solved.bottled().total_grams(), "g"),
            other => match volume_ml(solved.bottled()).filter(|_| !solved.bottled().is_dry()) {
                Some(ml) => (asked_ml(&other), ml, "ml"),
                None => {
                    let title = "these parts make something dry, and the card asks for a volume of it";
                    return self.refuse(
                        Diagnostic::error(Code::YieldImpossible, title)
                            .at(makes.span, "a volume")
                            .help("add the liquid that is missing, or ask for a weight (makes = \"500 g\")"),
                    );
                }
            },
        };
        let kept = poured_in(solved).filter(|poured| unit == "ml" && (asked / poured - 1.0).abs() <= YIELD_ROUNDING);
        if kept.is_some() && asked > gives {
            let title =
                format!("of the {} ml that are poured in, {} ml come out", grouped(asked, 0), grouped(gives, 0));
            let found = Diagnostic::note(Code::YieldLower, title)
                .at(makes.span, "the strained solids keep the rest")
                .help(format!("makes = \"{} ml\"", grouped(gives, 0).replace(',', "")));
            self.found.push(found);
            return;
        }
        if card.makes_about && (asked / gives - 1.0).abs() <= ABOUT {
            return;
        }
        let differs = yield_differs(makes.span, asked, gives, unit, counted_off(solved), kept_share(solved));
        self.found.extend(differs.map(|differs| match cause_of_less(card, solved).filter(|_| asked < gives) {
            Some(cause) => Diagnostic { help: Some(cause), ..differs },
            None => differs,
        }));
    }
}

/// How far a batch may be off, as a share, by what its card counts or measures by volume.
fn counted_off(solved: &Solved) -> f64 {
    let off = |part: &SolvedPart| by_hand::share_off(part).map(|share| share * part.mass_g);
    let squares: f64 = solved.parts().filter_map(off).map(|g| g * g).sum();
    squares.sqrt() / solved.bottled().total_grams()
}

/// The liquids that are poured in where something is strained out of them, ml; many write that as what the card makes.
fn poured_in(solved: &Solved) -> Option<f64> {
    let parts = || solved.stages.iter().flat_map(|stage| &stage.parts);
    parts().find(|part| part.feed.holds.is_some() && part.mass_g > 0.0)?;
    let liquid =
        parts().filter(|part| part.found.form == Form::Liquid && matches!(part.found.what, Material::Ingredient(_)));
    liquid.map(|part| Some(part.mass_g / part.found.g_per_ml?)).sum()
}

/// What strained solids keep, as a share of what comes out: a maker who presses them has most of it.
fn kept_share(solved: &Solved) -> f64 {
    let kept: f64 = solved.stages.iter().map(|stage| stage.course.kept.total_grams()).sum();
    kept / solved.bottled().total_grams()
}

/// A yield that the amounts do not make: an error where it is more than they can, a note where it is less, or where what
/// the card counts may be off by as much. `kept` is what the solids keep, as a share.
fn yield_differs(span: Span, asked: f64, gives: f64, unit: &str, off: f64, kept: f64) -> Option<Diagnostic> {
    let over = asked / gives - 1.0;
    if over.is_nan() || over.abs() <= YIELD_ROUNDING {
        return None;
    }
    let said = format!("the amounts make {} {unit}, the card says {} {unit}", grouped(gives, 0), grouped(asked, 0));
    let said_of = |note: fn(Code, String) -> Diagnostic, code| note(code, said.clone());
    Some(match over {
        over if over > 0.0 && over <= off => said_of(Diagnostic::note, Code::YieldImpossible)
            .at(span, format!("within what pieces and measures may be off, {:.0} %", 100.0 * off))
            .help("the sheet says what these amounts make; weigh the pieces once to know it better"),
        over if over >= FAR - 1.0 => said_of(Diagnostic::error, Code::YieldImpossible)
            .at(span, format!("{} times what these parts make", short(over + 1.0)))
            .help(format!("if these amounts are for one drink or one batch, write makes = \"{} {unit}\" and ask for more of them: --make \"{} {unit}\"", grouped(gives, 0).replace(',', ""), grouped(asked, 0).replace(',', ""))),
        over if over > 0.0 && over <= SPOKEN + kept => said_of(Diagnostic::warning, Code::YieldImpossible)
            .at(span, format!("these parts make {:.0} % less", 100.0 * (1.0 - 1.0 / (1.0 + over))))
            .help("the sheet says what these amounts make; write that as `makes`"),
        over if over > 0.0 => said_of(Diagnostic::error, Code::YieldImpossible)
            .at(span, format!("these parts make {:.0} % less", 100.0 * (1.0 - 1.0 / (1.0 + over))))
            .help("volumes of sugar and spirit do not simply add up: correct `makes`, or leave it out and take what the amounts give"),
        over => said_of(if -over > UNSTATED_LOSS { Diagnostic::warning } else { Diagnostic::note }, Code::YieldLower)
            .at(span, format!("these parts make {:.0} % more", 100.0 * (gives / asked - 1.0)))
            .help("if that much is lost on the way, say where: [loss] left_behind = \"2 %\" or evaporated = \"5 %\""),
    })
}

/// Less of a batch than this is worth no question, as a share (ours).
const STAYS: f64 = 0.01;

/// What a card leaves open that takes liquid away, in front of any loss that nobody can see: what it asks itself, a pan whose steam nobody
/// weighed, solids that nobody strains.
fn cause_of_less(card: &Card, solved: &Solved) -> Option<String> {
    if let Some(line) = card.open_lines().first() {
        return Some(format!("answer first what the card asks: {}", line.asked.value));
    }
    let is_plant = |part: &&SolvedPart| part.found.what.ingredient().is_some_and(Ingredient::is_plant_matter);
    let stays = solved.parts().filter(|part| part.feed.holds.is_none() && part.found.form == Form::Solid);
    let stays = stays.filter(is_plant).max_by(|one, other| one.mass_g.total_cmp(&other.mass_g));
    let stays = stays.filter(|part| part.mass_g > STAYS * solved.bottled().total_grams());
    let steam = card.all_stages().zip(&solved.stages).find_map(|(stage, made)| {
        let open = evaporation::unstated(card, stage)?;
        let pan = &made.course.combined;
        Some((open.most_of(pan) * pan.grams_of(Component::Water), open))
    });
    match (stays, steam) {
        (Some(part), steam) if steam.is_none_or(|(grams, _)| grams < part.mass_g) => {
            let amount = part.written.as_ref().map_or("…", |written| written.text.trim());
            let line = format!("{} = {{ amount = {amount:?}, strained = true }}", key(&part.label));
            Some(format!("say first whether `{}` is strained out: {line}", part.label))
        }
        (_, Some((_, open))) => Some(format!(
            "{} up to {} may go up: weigh the pan first, or write [loss] evaporated = \"as needed\" and see how much it would be",
            open.during(),
            open.most_said()
        )),
        _ => None,
    }
}

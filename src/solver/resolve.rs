//! From the lines of a card to what the engine needs: what each part is, what a gram of it is made
//! of, and what its amount means in grams.

use crate::card::{Amount, Part};
use crate::diagnostic::{Code, Diagnostic};
use crate::larder::packs::{self, Ounces};
use crate::larder::{Form, Ingredient};
use crate::mixture::{Component, Mixture};
use crate::units::display::short;
use crate::units::measures::measure;
use crate::units::{Basis, Reading, in_grams, in_kg_per_m3, in_millilitres};

use crate::vocabulary::{Kind, Portion};

use super::balance::MassRule;
use super::bottle_holds::BottleHolds;
use super::stage::Feed;
use super::target::g_per_ml;

/// What a part is.
#[derive(Clone, Debug)]
pub enum Material {
    /// An ingredient of the larder.
    Ingredient(Box<Ingredient>),
    /// An earlier stage of the same card, by its place.
    Stage(usize),
    /// Another card of the house, by its place among the inner cards of the solved card.
    Card(usize),
}

impl Material {
    /// The ingredient of the larder that it is.
    pub(crate) fn ingredient(&self) -> Option<&Ingredient> {
        match self {
            Self::Ingredient(ingredient) => Some(ingredient),
            Self::Stage(_) | Self::Card(_) => None,
        }
    }
}

/// A part that has been looked up.
#[derive(Clone, Debug)]
pub struct FoundPart {
    /// What it is.
    pub what: Material,
    /// Composition of one gram.
    pub per_gram: Mixture,
    /// Grams in a millilitre as it is measured (poured at 20 °C, or piled), where known.
    pub g_per_ml: Option<f64>,
    /// Poured or piled.
    pub form: Form,
    /// What one weighs, where its line counts.
    pub piece: Option<PieceWeight>,
    /// Its name, where what the line takes of a thing is another thing than the line names.
    pub called: Option<String>,
    /// All of it, grams: of a stage that has amounts, what it gives.
    pub all_g: Option<f64>,
    /// Whether it holds gas, which it would lose on ice that is worked and in a bottle that is filled.
    pub gas: bool,
    /// What a bottle of it holds, where its line counts bottles.
    pub(crate) bottle: Option<BottleHolds>,
}

/// What one of what a line counts weighs.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceWeight {
    /// One, grams.
    pub each_g: f64,
    /// How far one may be off, grams; `None` where nobody has said.
    pub half_width_g: Option<f64>,
    /// A light one and a heavy one.
    pub range_g: Option<(f64, f64)>,
    /// How that is known.
    pub status: String,
}

/// Something piled that is measured in a spoon, a cup or a pinch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Heaped {
    /// As it lies there.
    pub g_per_ml: f64,
    /// How far that may be off, as a share; `None` where nobody has said.
    pub spread: Option<f64>,
}

/// The spoons of which a larder knows one or the other, and what they hold, ml (21 CFR 101.9).
const SPOONS: [(Portion, f64); 2] = [(Portion::Teaspoon, 5.0), (Portion::Tablespoon, 15.0)];

/// Grams in a millilitre of an ingredient: a liquid by its composition, a strong acid as it was recorded, a solid as it is piled.
pub(crate) fn as_it_lies(ingredient: &Ingredient) -> Option<f64> {
    let recorded = ingredient.bulk_density.map(|d| in_kg_per_m3(d) / 1000.0);
    match ingredient.form {
        Form::Liquid => {
            recorded.filter(|_| ingredient.kind == Some(Kind::Acid)).or_else(|| g_per_ml(&ingredient.per_gram))
        }
        Form::Solid => recorded,
    }
}

impl FoundPart {
    /// An ingredient.
    pub(crate) fn ingredient(ingredient: &Ingredient) -> Self {
        Self {
            what: Material::Ingredient(Box::new(ingredient.clone())),
            per_gram: ingredient.per_gram,
            g_per_ml: as_it_lies(ingredient),
            form: ingredient.form,
            piece: None,
            called: None,
            all_g: None,
            gas: ingredient.is_carbonated(),
            bottle: None,
        }
    }

    /// The liquid of a stage or of another card.
    pub fn liquid(what: Material, out: &Mixture) -> Self {
        let per_gram = out.per_gram();
        let g_per_ml = g_per_ml(&per_gram);
        let form = Form::Liquid;
        Self { what, per_gram, g_per_ml, form, piece: None, called: None, all_g: None, gas: false, bottle: None }
    }

    /// The part as it goes into the pan.
    pub(super) fn feed(&self, part: &Part) -> Result<Feed, Diagnostic> {
        let mut feed = Feed { per_gram: self.per_gram, holds: None };
        if part.is_strained() && self.is_juicy() {
            feed.per_gram = with_its_dissolved_protein(self.per_gram);
        }
        let name = &part.of.value;
        if part.is_strained() {
            let of_larder = || match &self.what {
                Material::Ingredient(ingredient) => ingredient.holds,
                Material::Stage(_) | Material::Card(_) => None,
            };
            let holds = part.holds.map(|h| h.value).or_else(of_larder).ok_or_else(|| {
                said(
                    part,
                    Code::HoldsUnknown,
                    format!("how much liquid the strained `{name}` keeps is not known"),
                    "strained out",
                )
                .help(
                    "before the first batch weigh a trial: steep 20 g of it in 100 g of water as the card does, strain and \
                     weigh what stays in the strainer; (that weight - 20) / 20 is what to write here: \
                     { amount = …, strained = true, holds = … }",
                )
            })?;
            feed.holds = Some(holds);
            if feed.keeps() < -1e-9 {
                let solids = self.per_gram.grams_of_all(&Component::STAYS_IN_STRAINER);
                let title =
                    format!("with holds = {holds}, less comes out of the strainer than the dry solids of `{name}`");
                let label = format!("{:.0} % of it does not dissolve", 100.0 * solids);
                return Err(said(part, Code::OutOfRange, title, label)
                    .help("weigh it again: (wet weight out - weight in) / weight in"));
            }
        }
        Ok(feed)
    }

    /// Fruit and what is like it: of its protein the half is in its juice, as [`Component::share_in_brix`] counts it. That of
    /// nuts stays with their solids.
    fn is_juicy(&self) -> bool {
        let Material::Ingredient(ingredient) = &self.what else { return false };
        matches!(ingredient.kind, Some(Kind::Fruit | Kind::Vegetable | Kind::Puree | Kind::Herb))
    }

    /// What the amount of a part means to the engine.
    pub(super) fn rule(&self, part: &Part) -> Result<MassRule, Diagnostic> {
        let name = &part.of.value;
        let density = || {
            self.as_measured(&part.written).ok_or_else(|| {
                let title = format!("`{name}` is measured by volume, but what a cup of it weighs is not known");
                said(part, Code::DensityUnknown, title, "a volume")
                    .help("write it in grams, or give the ingredient a `density` in the house's larder.toml")
            })
        };
        let piece = || {
            self.piece.as_ref().map(|piece| piece.each_g).ok_or_else(|| {
                said(part, Code::PieceUnknown, format!("what one `{name}` weighs is not known"), "pieces")
                    .help("write it in grams, or give the ingredient a `piece` (\"67 g\") in the house's larder.toml")
            })
        };
        Ok(match part.amount.value {
            Amount::AsNeeded => MassRule::Open,
            Amount::All => MassRule::Fixed(self.all_g.ok_or_else(|| self.not_all(part))?),
            Amount::Mass(mass) => MassRule::Fixed(in_grams(mass)),
            Amount::Volume(volume) => MassRule::Fixed(match self.by_weight(&part.written) {
                Some(grams) => grams,
                None => {
                    let bottled = self.bottle.map_or(1.0, |bottle| bottle.times);
                    let poured = bottled * in_millilitres(volume) * density()?;
                    match self.ounces(&part.written) {
                        Some(Ounces::Asked) => return Err(self.which_ounces(part, poured)),
                        _ => poured,
                    }
                }
            }),
            Amount::Pieces(count) => MassRule::Fixed(count * piece()?),
            Amount::Parts { parts, basis: Basis::Weight } => MassRule::Ratio(parts),
            Amount::Parts { parts, basis: Basis::Volume } => MassRule::Ratio(parts * density()?),
            Amount::Dose(dose) => MassRule::Dose(in_kg_per_m3(dose) / 1000.0),
            Amount::VolumeDose(share) => MassRule::Dose(share * density()?),
            Amount::Share(share) => MassRule::Share(share),
        })
    }

    /// Nobody can say how much all of it is.
    fn not_all(&self, part: &Part) -> Diagnostic {
        let name = &part.of.value;
        let (title, help) = match self.what {
            Material::Stage(_) => (
                format!("how much all of `{name}` is, its own parts do not say"),
                "write the parts of that stage as amounts (\"300 g\") and not as shares, or how much of it goes in here",
            ),
            Material::Ingredient(_) | Material::Card(_) => (
                format!("`{name}` is no stage of this card: how much all of it is, nobody has said"),
                "only a [[stage]] of the same card goes in with \"all\": write how much of it, \"300 g\" or \"300 ml\"",
            ),
        };
        said(part, Code::StageRule, title, "all of what?").help(help)
    }

    /// Grams of what is weighed and not poured, where the house's unit is one by weight then: of a solid, and of what a can or a jar
    /// of it holds by its label.
    pub(crate) fn by_weight(&self, written: &Reading) -> Option<f64> {
        match self.ounces(written) {
            Some(Ounces::Weighed(of_label)) => Some(in_grams(of_label)),
            _ => written.of_solid().filter(|_| self.form == Form::Solid).map(in_grams),
        }
    }

    /// Whether it is poured and its ounces are those of the label of its can, by weight.
    pub(crate) fn is_by_label(&self, written: &Reading) -> bool {
        matches!(self.ounces(written), Some(Ounces::Weighed(_)))
    }

    /// What the ounces of a line are, where it is poured.
    fn ounces(&self, written: &Reading) -> Option<Ounces> {
        match &self.what {
            Material::Ingredient(ingredient) if self.form == Form::Liquid => {
                Some(packs::ounces(ingredient.packs, written))
            }
            _ => None,
        }
    }

    /// Ounces of a jug or of a scale: of honey a third lies between them.
    fn which_ounces(&self, part: &Part, poured_g: f64) -> Diagnostic {
        let (name, written) = (&part.of.value, part.written.text.trim());
        let weighed = part.written.of_solid().map(in_grams).unwrap_or_default();
        let ml = part.written.measure.map_or("fl oz", |measure| measure.name.as_str());
        let count = short(measure("oz wt").map_or(0.0, |ounce| weighed / ounce.factor));
        said(part, Code::AmbiguousUnit, format!("`{name}` = \"{written}\": by the jug or by the scale?"), "it is sold by weight").help(
            format!(
                "write \"{count} oz wt\" for what a scale or the label of a jar says ({weighed:.0} g), \"{count} {ml}\" for what a jug holds \
                 ({poured_g:.0} g)"
            ),
        )
    }

    /// Grams in a millilitre of it in the measure of its line: a spoon of a solid is as heavy as the larder says of spoons.
    pub(crate) fn as_measured(&self, written: &Reading) -> Option<f64> {
        self.heaped(written).map(|heaped| heaped.g_per_ml).or(self.g_per_ml)
    }

    /// What the larder says of a solid in the measure of its line, where it has one of that kind.
    pub(crate) fn heaped(&self, written: &Reading) -> Option<Heaped> {
        let (Form::Solid, Material::Ingredient(ingredient)) = (self.form, &self.what) else { return None };
        let measure = written.measure?;
        let own = measure.portion?;
        // what the larder says is of a level spoon, where its row names no volume
        let level =
            SPOONS.iter().find(|spoon| spoon.0 == own).map_or(measure.factor, |spoon| spoon.1.min(measure.factor));
        let of_portion = |portion: Portion, ml: f64| {
            let known = ingredient.portion(portion)?;
            let each_g = in_grams(known.grams);
            let spread = known.half_width().map(|half| half / each_g);
            Some(Heaped { g_per_ml: each_g / known.ml.unwrap_or(ml), spread })
        };
        // Of what the larder knows one spoon of, the other is as heavy for its size, and so is a cup.
        let other = |(portion, ml): (Portion, f64)| of_portion(portion, ml);
        of_portion(own, level).or_else(|| SPOONS.into_iter().find_map(other).filter(|_| self.g_per_ml.is_none()))
    }
}

/// The protein that runs out with the juice, as what is dissolved and not named: a strainer keeps the other half.
fn with_its_dissolved_protein(mut per_gram: Mixture) -> Mixture {
    let protein = per_gram.grams_of(Component::Protein);
    let runs_out = protein * Component::Protein.share_in_brix();
    per_gram.set_grams(Component::Protein, protein - runs_out);
    per_gram.set_grams(Component::OtherCarbohydrate, per_gram.grams_of(Component::OtherCarbohydrate) + runs_out);
    per_gram
}

fn said(part: &Part, code: Code, title: String, label: impl Into<String>) -> Diagnostic {
    Diagnostic::error(code, title).at(part.amount.span, label)
}

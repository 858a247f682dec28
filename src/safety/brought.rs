//! What ingredients and inner cards bring, and what follows from it.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::larder::Larder;
use crate::spelling::{self, Claim};
use crate::vocabulary::{Allergen, Kind, Open, Process, Tag, Word, or_all};

use super::alcohol_bands::PATHOGENS_STOP_ABV;
use super::allergens::declared;
use super::facts::{Fact, Facts, Member, Quantity};
use super::foods::{self, KnownAs, known_as};
use super::hazards;
use super::members::Members;
use super::names;
use super::variables::ask_of;

/// What can only come with one of these tags: without them there is none of it.
const CARRIERS: &[(Quantity, Fact<f64>, &[Tag])] = &[
    (Quantity::Corrosive, Fact::Known(0.0), &[Tag::Corrosive]),
    (Quantity::Benzoic, Fact::Known(0.0), &[Tag::Benzoate]),
    (Quantity::Sorbic, Fact::Known(0.0), &[Tag::Sorbate]),
    (Quantity::Quinine, Fact::None, &[Tag::Cinchona, Tag::Quinine]),
    (Quantity::Coumarin, Fact::Known(0.0), &[Tag::Cassia, Tag::Tonka, Tag::Woodruff]),
    (Quantity::Nutmeg, Fact::Known(0.0), &[Tag::Nutmeg, Tag::Mace]),
];

/// What goes on in whatever a product is put into: yeast that lives, gas that is dissolved.
const LASTING: &[Process] = &[Process::Ferment, Process::Carbonated];

impl Facts {
    /// Of what nothing has been put into and nothing done to: to be filled.
    pub(crate) fn of_nothing() -> Self {
        Self { tags: Members::none(), allergens: Members::none(), process: Members::none(), ..Self::default() }
    }

    /// Takes in one ingredient: the tags and allergens that its larder entry states, and those that any of its
    /// names gives away. Names only ever add, and what may be a misspelt name only ever asks. Begin with
    /// `Facts::of_nothing`. The first of the names is the one that it is spoken of by.
    /// The tag `identified` states that somebody who knows has named it, as it is written: then nothing is asked of the
    /// name.
    pub fn add_ingredient(&mut self, names: &[&str], tags: &[impl AsRef<str>], allergens: &[impl AsRef<str>]) {
        self.add_known(names, tags, allergens, &[]);
    }

    /// The same, where these of its names are those of a distillate of which the house has stated its allergens: a cereal
    /// in them stayed in the still, where every list that asks for it exempts what was distilled from it.
    pub(crate) fn add_known(
        &mut self,
        names: &[&str],
        tags: &[impl AsRef<str>],
        allergens: &[impl AsRef<str>],
        distilled: &[&str],
    ) {
        let mut all_tags: BTreeSet<Tag> = tags.iter().filter_map(|tag| Tag::parse(tag.as_ref())).collect();
        let identified = all_tags.contains(&Tag::Identified);
        let mut brings: BTreeSet<Open<Allergen>> =
            allergens.iter().flat_map(|a| names::read_allergen(a.as_ref())).collect();
        for name in names {
            let found = names::find(name);
            // An egg that the larder has as pasteurised, under that very name, is no raw one; nor is a powder of it, or the egg of
            // a liqueur that is bought.
            let row = Larder::built_in().find(name);
            let made = row.is_some_and(|row| {
                spelling::pasteurised(&row.name) == Some(Claim::Made)
                    || matches!(row.kind, Some(Kind::Liqueur | Kind::Egg))
                        && !row.tags.contains(&Open::Known(Tag::RawEgg))
            });
            all_tags.extend(found.tags.iter().filter(|tag| !made || **tag != Tag::RawEgg));
            // A cereal that stayed in the still is not brought; "rye" is a whiskey, of which the larder states what it brings.
            let is_spirit = row.is_some_and(|row| row.kind == Some(Kind::Spirit));
            let is_cereal = |of: &Allergen| of.group().unwrap_or(*of) == Allergen::GlutenCereals;
            let is_left = |of: &Allergen| is_cereal(of) && (is_spirit || self.is_exempt_cereal(*of));
            let stays = |of: &Allergen| !(distilled.contains(name) && is_left(of));
            brings.extend(found.allergens.iter().filter(|of| stays(of)).copied().map(Open::Known));
            // What the embedded larder has states its own, whatever stands in its place.
            let of_list = match row {
                Some(row) => {
                    let of_row = row.allergens.iter().flat_map(|a| names::read_allergen(a));
                    brings.extend(of_row.filter(|of| of.known().as_ref().is_none_or(&stays)));
                    // and what it warns of stays so, whatever it is said to be like
                    let is_hazard = |tag: &Tag| {
                        *tag == Tag::MedicinePlant
                            || hazards::all().iter().any(|hazard| hazard.ingredient_tags.contains(tag))
                    };
                    let by_name = names::find(&row.name);
                    let tags = row.tags.iter().filter_map(Open::known).chain(by_name.tags.iter().copied());
                    all_tags.extend(tags.filter(|tag| is_hazard(tag) && *tag != Tag::RawEgg));
                    Arc::default()
                }
                None => foods::allergens_of(name),
            };
            brings.extend(of_list.surely.iter().copied().map(Open::Known));
            for &allergen in &of_list.perhaps {
                let question = format!("whether `{name}` brings {}", allergen.said());
                self.doubt_allergen(allergen.into(), question);
            }
            if identified {
                continue;
            }
            for &tag in &found.unsure {
                self.doubt_tag(tag, ask_of(name, tag));
            }
            // What is known as food is written as it is meant.
            let known = matches!(known_as(name), Some(KnownAs::Food { .. }));
            if known {
                continue;
            }
            for maybe in names::find_misspelt(name).iter() {
                let question = format!("whether `{name}` is {}", maybe.meant);
                for &tag in maybe.gives.tags.iter().chain(&maybe.gives.unsure) {
                    self.doubt_tag(tag, question.clone());
                }
                for allergen in maybe.gives.allergens.iter().map(|&a| Open::Known(a)) {
                    self.doubt_allergen(allergen, question.clone());
                }
            }
        }
        names::drop_generic(&mut brings);
        if let Some(name) = names.first() {
            let tags = all_tags.iter().map(|&tag| Member::Tag(tag));
            for read in tags.chain(brings.iter().cloned().map(Member::Allergen)) {
                self.read_from.entry(read).or_default().insert(format!("`{name}`"));
            }
        }
        self.tags.present.extend(all_tags);
        self.allergens.present.extend(brings);
    }

    /// Regulation (EU) No 1169/2011 Annex II 1 (d) and its like, as the tables have them; the lists of the United States and of Canada
    /// have no such word of wheat.
    fn is_exempt_cereal(&self, of: Allergen) -> bool {
        let lists = or_all(&self.market).iter().flat_map(|market| declared(*market, &Open::Known(of), Fact::Unknown));
        of.group().unwrap_or(of) == Allergen::GlutenCereals && lists.into_iter().all(|entry| entry.distillate_exempt)
    }

    /// May hold it, until this is answered.
    pub(crate) fn doubt_allergen(&mut self, allergen: Open<Allergen>, question: String) {
        self.questions.entry(Member::Allergen(allergen.clone())).or_default().insert(question);
        self.allergens.doubt(allergen);
    }

    /// May be it, until this is answered.
    pub(crate) fn doubt_tag(&mut self, tag: Tag, question: String) {
        self.questions.entry(Member::Tag(tag)).or_default().insert(question);
        self.tags.doubt(tag);
    }

    /// Takes in another card that is a part of this one: tags and allergens travel, and what lives or is
    /// under pressure in it; its other properties do not.
    pub fn take_in(&mut self, inner: &Self) {
        let more_than_traces: BTreeSet<Open<Allergen>> =
            [&*self, inner].iter().flat_map(|of| of.allergens.unsure.difference(&of.fined)).cloned().collect();
        self.fined.extend(inner.fined.iter().cloned());
        self.fined.retain(|allergen| !more_than_traces.contains(allergen));
        self.tags.unite(&inner.tags);
        self.allergens.unite(&inner.allergens);
        for process in LASTING {
            if inner.process.has(*process) {
                self.process.add(*process);
            } else if inner.process.names(*process) {
                self.process.doubt(*process);
            }
        }
        for (mine, theirs) in [(&mut self.read_from, &inner.read_from), (&mut self.questions, &inner.questions)] {
            for (what, said) in theirs {
                mine.entry(what.clone()).or_default().extend(said.iter().cloned());
            }
        }
    }

    /// Draws what follows from the tags once all parts are in: plants in oil of a mixture too weak to hold growth
    /// back are an oil infusion, and a poison none of whose carriers can be there is not there.
    pub fn conclude(&mut self) {
        self.conclude_by(true);
    }

    /// The same of a glass that is drunk at once: an oil and a plant that meet in it alone have no time to stand. What is an oil with a plant
    /// in it by itself stays one.
    pub fn conclude_glass(&mut self) {
        let from = |tag: Tag| self.read_from.get(&Member::Tag(tag)).into_iter().flatten();
        let is_one_thing = from(Tag::Oil).any(|oil| from(Tag::FreshPlant).any(|plant| plant == oil));
        self.conclude_by(is_one_thing);
    }

    fn conclude_by(&mut self, stands_together: bool) {
        let weak = !matches!(self.number(Quantity::Abv), Fact::Known(abv) if abv >= PATHOGENS_STOP_ABV);
        if weak && stands_together && self.tags.has(Tag::Oil) && self.tags.has(Tag::FreshPlant) {
            self.tags.add(Tag::OilInfusion);
        }
        for (quantity, absent, carriers) in CARRIERS {
            if carriers.iter().any(|&tag| self.tags.may_hold(tag)) {
                continue;
            }
            let fact = self.number_mut(*quantity);
            if *fact == Fact::Unknown {
                *fact = *absent;
            }
        }
    }
}

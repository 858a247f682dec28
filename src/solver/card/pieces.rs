//! What a line counts: of which ingredient, and what one weighs (`20 cloves`, `juice of 2 limes`, `a bunch of mint`).

use crate::card::{Amount, Card, Part};
use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::larder::Ingredient;
use crate::larder::packs::{PackSize, SoldIn, in_pack};
use crate::larder::spoken::{is_said_apart, understood};
use crate::spelling::{fold, words, words_of_names};
use crate::units::{Counted, Literal, in_grams, in_millilitres};
use crate::vocabulary::{Evidence, Kind, MeasureSystem, Portion, Word};

use super::super::resolve::{FoundPart, Material, PieceWeight};
use super::super::target::g_per_ml;
use super::super::{Solved, bottle_holds};
use super::cook::Cook;
use super::cuts::{cut_in, cut_weight, is_cut, no_glass_holds};
use super::rough::{SIZES, in_order, sized, so_many};
use super::steeped::{BREWED, is_by_spoon};

/// More leaves or grounds than this, a gram of what is beside them, nothing is brewed with: the strongest cold brew takes a quarter
/// (common practice, no source).
const MOST_DRY: f64 = 0.34;

/// About how much stands beside a part on its stage, grams: what is poured as water.
fn beside_g(card: &Card, part: &Part) -> f64 {
    let stage = card.all_stages().find(|stage| stage.parts.iter().any(|own| own.label == part.label));
    let others = stage.into_iter().flat_map(|stage| &stage.parts).filter(|other| other.label != part.label);
    others
        .map(|other| match other.amount.value {
            Amount::Mass(mass) => in_grams(mass),
            Amount::Volume(volume) => in_millilitres(volume),
            // what is left open may be any amount
            Amount::AsNeeded | Amount::All => f64::INFINITY,
            _ => 0.0,
        })
        .sum()
}

/// What is taken of a fruit.
const TAKEN: [Portion; 3] = [Portion::Peel, Portion::Zest, Portion::Juice];

/// Words that kitchens say for one another: a stalk of cinnamon is a stick, and French has one word for a pod and a clove.
const ALSO: [(Portion, Portion); 7] = [
    (Portion::Stalk, Portion::Stick),
    (Portion::Stick, Portion::Stalk),
    (Portion::Pod, Portion::Clove),
    (Portion::Clove, Portion::Pod),
    // a German Dose is a can, an Italian bustina a packet
    (Portion::Dose, Portion::Can),
    (Portion::Bag, Portion::Packet),
    // a coin of ginger is a slice of it
    (Portion::Twist, Portion::Slice),
];

/// What things are bought in, with a label that says what one holds.
const PACKED: [Portion; 7] =
    [Portion::Punnet, Portion::Packet, Portion::Can, Portion::Jar, Portion::Tub, Portion::Carton, Portion::Block];

/// Portions of which one is what else is called a piece, where the larder knows only that.
const ONE_PIECE: [Portion; 4] = [Portion::Juice, Portion::Stick, Portion::Pod, Portion::Clove];

impl Cook<'_> {
    /// What a part is, and what one of it weighs where its line counts. What is taken of it may decide which thing is
    /// meant: `lime = "juice of 2"` is lime juice.
    pub(super) fn look_for_part(
        &mut self,
        card: &Card,
        part: &Part,
        solved: &mut Solved,
    ) -> Result<FoundPart, Option<Diagnostic>> {
        let written = part.written.counted.as_ref();
        let counted = written.map(|counted| self.of_whole_fruit(part, counted));
        let counted = counted.as_ref();
        let of_counted = counted.and_then(|counted| self.what_is_taken(&part.of.value, counted.taken?));
        let taken = of_counted
            .or_else(|| written.and_then(|counted| self.what_is_taken_of(part, counted)))
            .or_else(|| self.what_is_strained(part))
            .or_else(|| self.what_is_steeped(card, part))
            .or_else(|| written.and_then(|counted| self.what_is_in_bags(part, counted)))
            .or_else(|| self.what_is_poured(part))
            .or_else(|| self.what_is_said(card, part));
        if let Some(asked) = self.brewed_or_dry(card, part).filter(|_| taken.is_none()) {
            return Err(Some(asked));
        }
        let name = Spanned::new(taken.clone().unwrap_or_else(|| part.of.value.clone()), part.of.span);
        let mut found = self.look_for(card, &name, solved)?;
        found.called = taken;
        let ingredient = if let Material::Ingredient(ingredient) = &found.what { Some(&**ingredient) } else { None };
        found.bottle = bottle_holds::of_part(card, part, ingredient, &self.house.settings).map_err(Some)?;
        if let (Amount::Pieces(_), Material::Ingredient(ingredient)) = (part.amount.value, &found.what) {
            found.piece = match counted {
                Some(counted) => {
                    let bought = self.house.settings.measures;
                    Some(counted_piece(part, ingredient, counted, bought).map_err(Some)?)
                }
                None => piece(&part.of.value, ingredient),
            };
            if let Some(asked) = found.piece.as_ref().and_then(|one| no_glass_holds(card, part, one)) {
                return Err(Some(asked));
            }
        }
        Ok(found)
    }

    /// `zest = "9 limes"` is the zest of those: the name under which that is known.
    fn what_is_taken_of(&self, part: &Part, counted: &Counted) -> Option<String> {
        let taken = Portion::parse(&part.of.value.to_lowercase()).filter(|taken| TAKEN.contains(taken))?;
        self.what_is_taken(&counted.words.join(" "), taken)
    }

    /// The leaves of a tea that a line counts in bags: `"earl grey" = "4 teabags"` is no brew of it.
    fn what_is_in_bags(&self, part: &Part, counted: &Counted) -> Option<String> {
        let is_bag = |word: &String| Portion::parse(word) == Some(Portion::Bag);
        counted.words.iter().any(is_bag).then(|| self.house.leaves_of(&part.of.value)).flatten()
    }

    /// What a line counts, without the whole fruit where it names what is taken of it: `"orange peel" = "1 arancia"`.
    fn of_whole_fruit(&self, part: &Part, counted: &Counted) -> Counted {
        let find = |name: &str| self.house.larder.find(name);
        let Some(own) = find(&part.of.value) else { return self.of_portion_alone(part, counted) };
        let fruit = counted.words.join(" ");
        let said = words(&part.of.value).into_iter().filter_map(|word| Portion::parse(&word));
        let is_it = |taken: &Portion| {
            let peel = self.what_is_taken(&fruit, *taken).and_then(|name| find(&name));
            own.portion(*taken).is_some() && peel.is_some_and(|peel| peel.id == own.id)
        };
        let taken =
            counted.taken.into_iter().chain(said).chain(TAKEN).filter(|taken| TAKEN.contains(taken)).find(is_it);
        match taken.filter(|taken| counted.taken.is_none_or(|own| own == *taken)) {
            Some(taken) => Counted { taken: Some(taken), words: Vec::new(), ..counted.clone() },
            None => counted.clone(),
        }
    }

    /// The same of a line that is called by the word alone: `zest = "9 limes"`.
    fn of_portion_alone(&self, part: &Part, counted: &Counted) -> Counted {
        match self.what_is_taken_of(part, counted) {
            Some(_) => {
                let taken = Portion::parse(&part.of.value.to_lowercase());
                Counted { taken, words: Vec::new(), ..counted.clone() }
            }
            None => counted.clone(),
        }
    }

    /// The leaves of a tea, where a line strains out what by its name would be the brew of it: `earl grey`; the plant, where the
    /// name is one of a liqueur too: `cassis`.
    fn what_is_strained(&self, part: &Part) -> Option<String> {
        let name = &part.of.value;
        part.is_strained().then(|| self.dry_of(name)).flatten()
    }

    fn dry_of(&self, name: &str) -> Option<String> {
        self.house.leaves_of(name).or_else(|| self.house.larder.plant_of(name))
    }

    /// The juice or the extract, where a line pours what nobody measures so: `lemon = "25 ml"`, `vanilla = "1 tsp"`.
    fn what_is_poured(&self, part: &Part) -> Option<String> {
        let name = &part.of.value;
        let is_poured = matches!(part.amount.value, Amount::Volume(_)) && self.house.card(name).is_none();
        is_poured.then(|| self.house.larder.poured_of(name)).flatten()
    }

    /// Grams and spoons of what by its name is a brewed drink are those of the dry thing as well: which it is only the maker knows.
    fn brewed_or_dry(&self, card: &Card, part: &Part) -> Option<Diagnostic> {
        let name = &part.of.value;
        let is_weighed =
            matches!(part.amount.value, Amount::Mass(own) if in_grams(own) < MOST_DRY * beside_g(card, part));
        let says_it = words(name).iter().any(|word| word == BREWED);
        let is_asked = (is_weighed || is_by_spoon(part)) && !says_it && !part.is_strained();
        let brew = self.house.larder.find(name).filter(|_| is_asked)?;
        let dry = self.dry_of(name)?;
        let is_brewed = |name: &&str| words(name).iter().any(|word| word == BREWED);
        // by a name that is the drink's alone
        let is_its_own = |other: &&str| self.dry_of(other).is_none() && words(other).contains(&fold(name));
        let own = || brew.written_names().filter(is_its_own).min_by_key(|other| other.len());
        let brewed = brew.written_names().find(is_brewed).or_else(own).unwrap_or(name);
        let title = format!("`{name}` = \"{}\": dry, or the drink of that name?", part.written.text.trim());
        let found = Diagnostic::error(Code::UnknownIngredient, title).at(part.amount.span, "which of the two?");
        Some(found.help(format!("call the line `{dry}`, with strained = true where it is strained out, or `{brewed}`")))
    }

    /// The known name in one that nobody has, but for what people say besides: `ginger, peeled`, `zest of 8 limes`.
    fn what_is_said(&self, card: &Card, part: &Part) -> Option<String> {
        let name = &part.of.value;
        let larder = &self.house.larder;
        let stages = || card.stages.iter().filter_map(|stage| stage.name.as_ref());
        let is = |one: &str, other: &str| fold(one) == fold(other);
        let knows = |name: &str| {
            let is_stage = stages().any(|stage| is(&stage.value, name));
            is_stage || self.house.card(name).is_some() || larder.find(name).is_some()
        };
        let is_left_out = larder.said_of(name).next().is_some();
        if knows(name) || is(name, &card.name.value) || is_left_out {
            return None;
        }
        let of_portion = || larder.of_portion(name).map(|(thing, _)| thing.name.clone());
        understood(name, knows).or_else(|| larder.in_its_state(name)).or_else(of_portion)
    }

    /// The name under which the house or the larder has what is taken of a whole thing, where the line names the whole.
    fn what_is_taken(&self, whole: &str, taken: Portion) -> Option<String> {
        let other = match taken {
            Portion::Zest => Some(Portion::Peel),
            Portion::Peel => Some(Portion::Zest),
            _ => None,
        };
        let portions: Vec<Portion> = [taken].into_iter().chain(other).collect();
        let names_it = words(whole).iter().any(|word| Portion::parse(word).is_some_and(|p| portions.contains(&p)));
        let is_known = |name: &String| self.house.card(name).is_some() || self.house.larder.find(name).is_some();
        // By the name that stands there, or by another of the same thing: `limoni`.
        let others = self.house.larder.find(whole).into_iter().flat_map(Ingredient::all_names);
        let wholes: Vec<String> = std::iter::once(whole).chain(others).map(|name| words(name).join(" ")).collect();
        let named: Vec<(Portion, String)> = portions
            .iter()
            .flat_map(|portion| wholes.iter().map(move |one| (*portion, format!("{one} {portion}"))))
            .filter(|(_, name)| is_known(name))
            .collect();
        // the peel of a French citron is that of a lemon: of candied citron nobody knows what one gives
        let gives = |(portion, name): &&(Portion, String)| {
            self.house.larder.find(name).is_some_and(|known| known.portion(*portion).is_some())
        };
        let found = named.iter().find(gives).or_else(|| named.first()).filter(|_| !names_it);
        found.map(|(_, name)| name.clone())
    }
}

/// What one weighs of what is counted without a word for it (`3 each`): the name may have it (`lime zest`, `bay leaf`).
fn piece(name: &str, ingredient: &Ingredient) -> Option<PieceWeight> {
    let named = words(name).pop().and_then(|last| Portion::parse(&last));
    if let Some(cut) = named.filter(|named| is_cut(*named)) {
        return cut_weight(cut, &[cut], ingredient, |portion| known(ingredient, portion));
    }
    let portions = named.into_iter().chain([Portion::Piece, Portion::Juice]);
    portions.into_iter().find_map(|portion| known(ingredient, portion))
}

fn known(ingredient: &Ingredient, portion: Portion) -> Option<PieceWeight> {
    // What the house says that one of it weighs or gives goes before what the larder says of that portion.
    let of_house = ingredient.portion(Portion::Piece).filter(|own| {
        own.status.evidence == Evidence::MeasuredByTheHouse
            && (ONE_PIECE.contains(&portion) || SIZES.contains(&portion))
    });
    let of_table = of_house.or_else(|| ingredient.portion(portion)).map(|known| PieceWeight {
        each_g: in_grams(known.grams),
        half_width_g: known.half_width(),
        range_g: known.low.zip(known.high).map(|(low, high)| (in_grams(low), in_grams(high))),
        status: known.status.as_str().to_owned(),
    });
    let of_piece = || {
        let each_g = in_grams(ingredient.piece.filter(|_| portion == Portion::Piece || ONE_PIECE.contains(&portion))?);
        Some(PieceWeight { each_g, half_width_g: None, range_g: None, status: ingredient.status.as_str().to_owned() })
    };
    of_table.or_else(of_piece)
}

/// What a word counts; a part that bears the name of what it is of is a piece of it: blades of mace, beans of coffee.
fn counted_as(word: &str) -> Option<Portion> {
    Portion::parse(word).map(|portion| if portion == Portion::PartOfPlant { Portion::Piece } else { portion })
}

/// What one can, jar or tub of it holds.
fn packed(ingredient: &Ingredient, portion: Portion, bought: Option<MeasureSystem>) -> Option<PieceWeight> {
    let (one, other) = in_pack(ingredient.packs, portion)?.usual(bought)?;
    let in_grams = |size: &PackSize| match size.holds {
        Literal::Mass(mass) => Some(in_grams(mass)),
        Literal::Volume(volume) => Some(in_millilitres(volume) * g_per_ml(&ingredient.per_gram)?),
        _ => None,
    };
    let each_g = in_grams(one)?;
    let range_g = other.and_then(in_grams).map(|other| (each_g.min(other), each_g.max(other)));
    let half_width_g = Some(range_g.map_or(0.0, |(low, high)| (high - low) / 2.0));
    let status = format!("a {portion} of {}; common practice, no source", one.written);
    Some(PieceWeight { each_g, half_width_g, range_g, status })
}

fn counted_piece(
    part: &Part,
    ingredient: &Ingredient,
    counted: &Counted,
    bought: Option<MeasureSystem>,
) -> Result<PieceWeight, Diagnostic> {
    let written = part.written.text.trim();
    let own: Vec<String> = words_of_names(ingredient.all_names().chain([part.of.value.as_str()]));
    let portions: Vec<Portion> = match counted.taken {
        Some(taken) => vec![taken],
        None => {
            // of `strip of lemon peel` a strip, not what the name ends in
            let (own, said): (Vec<&String>, Vec<&String>) = counted
                .words
                .iter()
                .rev()
                .partition(|word| own.contains(word) && !counted_as(word).is_some_and(is_cut));
            let said: Vec<Portion> = said.into_iter().filter_map(|word| counted_as(word)).collect();
            // of `4 large sprigs` the sprig is in a name of rosemary, and the size is of it
            let is_size_alone = said.iter().all(|portion| SIZES.contains(portion));
            let own = own.into_iter().filter(|_| is_size_alone).filter_map(|word| counted_as(word));
            said.iter().copied().chain(own).collect()
        }
    };
    let is_strange = |word: &str| Portion::parse(word).is_none() && !is_said_apart(word);
    let strange = counted.words.iter().find(|word| !own.contains(word) && is_strange(word));
    if let Some(strange) = strange {
        let title = format!(
            "`{}` = \"{written}\": `{strange}` is no unit that is read here, and no piece of {} that is known",
            part.label.value, ingredient.name
        );
        return Err(Diagnostic::error(Code::PieceUnknown, title)
            .at(part.amount.span, "how much is that?")
            .help("write its weight or volume (\"12 g\", \"60 ml\"), or pieces of it (\"20 each\")"));
    }
    let other_part = counted.words.iter().find(|word| {
        let is_a_part = Portion::parse(word) == Some(Portion::PartOfPlant);
        is_a_part && !own.contains(word) && counted.taken.is_none() && ingredient.kind.is_some_and(Kind::is_of_fruit)
    });
    if let Some(other) = other_part {
        let name = &part.of.value;
        let title =
            format!("`{}` = \"{written}\": a {other} of `{name}` is another thing than `{name}`", part.label.value);
        return Err(Diagnostic::error(Code::PieceUnknown, title)
            .at(part.amount.span, "which of the two?")
            .help(format!("name what goes in: \"{name} {other}\", with its weight; or count the fruit: \"20 each\"")));
    }
    let also = |portion: &Portion| ALSO.iter().find(|(one, _)| one == portion).map(|(_, other)| *other);
    let in_table =
        |portion: &Portion| ingredient.portion(*portion).is_some() || in_pack(ingredient.packs, *portion).is_some();
    let portions: Vec<Portion> = portions
        .into_iter()
        .map(|portion| if in_table(&portion) { portion } else { also(&portion).filter(in_table).unwrap_or(portion) })
        .collect();
    let weight = |portion: &Portion| packed(ingredient, *portion, bought).or_else(|| known(ingredient, *portion));
    let cut = cut_in(&portions, ingredient).filter(|_| counted.taken.is_none());
    let named = match cut {
        Some(cut) => {
            cut_weight(cut, &portions, ingredient, |portion| known(ingredient, portion)).map(|weight| (cut, weight))
        }
        None => in_order(&portions).iter().find_map(|portion| Some((*portion, weight(portion)?))),
    };
    let size = portions.iter().copied().find(|portion| SIZES.contains(portion)).filter(|_| counted.taken.is_none());
    // of "a large bunch" the size is that of the bunch
    let named = named.map(|(portion, one)| match size.filter(|size| *size != portion) {
        Some(size) => sized(one, size),
        None => one,
    });
    let of_size = || Some(sized(piece(&part.of.value, ingredient).filter(|_| cut.is_none())?, size?));
    // `20 cloves` of cloves: the word is the thing's own name.
    let is_its_name = |portion: &Portion| own.iter().any(|word| counted_as(word) == Some(*portion));
    let whole = || {
        piece(&part.of.value, ingredient)
            .filter(|_| cut.is_none() && counted.taken.is_none() && portions.iter().all(is_its_name))
    };
    let one = named.or_else(whole).or_else(of_size).map(|one| match counted.between {
        Some(between) => so_many(one, between, part),
        None => one,
    });
    one.ok_or_else(|| {
        let name = &part.of.value;
        if let Some(cut) = cut {
            return Diagnostic::error(Code::PieceUnknown, format!("what one {cut} of `{name}` weighs is not known"))
                .at(part.amount.span, "cut from it")
                .help("weigh what goes in and write it: \"45 g\"; or say how many whole ones: \"0.5 each\"");
        }
        let (title, key) = match portions.first() {
            None => (format!("what one `{name}` weighs is not known"), true),
            Some(portion) if *portion == Portion::Piece || (counted.taken.is_none() && is_its_name(portion)) => {
                (format!("what one `{name}` weighs is not known"), true)
            }
            Some(portion @ (Portion::Juice | Portion::Zest | Portion::Peel)) => {
                (format!("how much {portion} one gives is not known of `{name}`"), false)
            }
            Some(portion) if PACKED.contains(portion) => return how_big(part, ingredient, *portion),
            Some(portion) => (format!("what one {portion} of `{name}` weighs is not known"), false),
        };
        let house = if key { ", or give the ingredient a `piece` (\"67 g\") in the house's larder.toml" } else { "" };
        Diagnostic::error(Code::PieceUnknown, title)
            .at(part.amount.span, "pieces")
            .help(format!("weigh one and write it in grams{house}"))
    })
}

/// What is bought in a can or a jar says on it what it holds.
fn how_big(part: &Part, ingredient: &Ingredient, pack: Portion) -> Diagnostic {
    let sizes: Vec<&str> =
        in_pack(ingredient.packs, pack).into_iter().flat_map(SoldIn::sizes).map(|size| size.written.as_str()).collect();
    let usual = match sizes.is_empty() {
        true => String::new(),
        false => format!("; usual are {}", sizes.join(", ")),
    };
    Diagnostic::error(Code::PieceUnknown, format!("what one {pack} of `{}` holds is not known", part.of.value))
        .at(part.amount.span, "of which size?")
        .help(format!("write what its label says: \"400 g\", \"330 ml\"{usual}"))
}

//! The small words by which a sentence of a method is read, as lists.

use std::sync::LazyLock;

use crate::spelling::singular;
use crate::vocabulary::Word;
use crate::vocabulary::table::lists;

crate::vocabulary::words! {
    /// A list of `step-words.csv`, which says what each is of.
    StepWord, "list of small words":
    Not = "not",
    VerbLast = "verb_last",
    Forbid = "forbid",
    Between = "between",
    Join = "join",
    ForbidAll = "forbid_all",
    Cleaning = "cleaning",
    Scalding = "scalding",
    Vessel = "vessel",
    Needed = "needed",
    Discard = "discard",
    InCase = "in_case",
    Likeness = "likeness",
    Stoning = "stoning",
    Kernel = "kernel",
    Removing = "removing",
    Throwing = "throwing",
    Into = "into",
    Expressing = "expressing",
    Determiner = "determiner",
    Heating = "heating",
    ToTheBoil = "to_the_boil",
    BringAll = "bring_all",
    Warming = "warming",
    Harsh = "harsh",
    Rinsing = "rinsing",
    LeftOn = "left_on",
    LiveCulture = "live_culture",
    Washing = "washing",
    OutOf = "out_of",
    FreeOf = "free_of",
    Small = "small",
    Looking = "looking",
    Heat = "heat",
    Forget = "forget",
    Unheated = "unheated",
    Drying = "drying",
    Next = "next",
    OffHeat = "off_heat",
    OverHeat = "over_heat",
    Filling = "filling",
    Raw = "raw",
    Shelling = "shelling",
    Egg = "egg",
    PartOfEgg = "part_of_egg",
    Number = "number",
    OfAll = "of_all",
    Allergens = "allergens",
    OfMilk = "of_milk",
    Holding = "holding",
    OfSugar = "of_sugar",
    Added = "added",
    FreeInOne = "free_in_one",
    Cracking = "cracking",
    HardPart = "hard_part",
    Grinding = "grinding",
    Stoned = "stoned",
    Unstoned = "unstoned",
    Included = "included",
    With = "with",
    Pan = "pan",
    Shut = "shut",
    Written = "written",
    Distilled = "distilled",
    Cut = "cut",
    Graded = "graded",
    Water = "water",
    Freezing = "freezing",
    Ice = "ice",
    OfIce = "of_ice",
    TakingOff = "taking_off",
    Empty = "empty",
    BesideVessel = "beside_vessel",
    PlacedIn = "placed_in",
    Lacking = "lacking",
    Sprayed = "sprayed",
    Full = "full",
    Product = "product",
    Mould = "mould",
    MouldOrForm = "mould_or_form",
    Grows = "grows",
    Scraped = "scraped",
}

/// The words of each list, sorted; the lists in the order of the enum.
static LISTS: LazyLock<Vec<Vec<&str>>> = LazyLock::new(|| {
    let mut all: Vec<Vec<&str>> = StepWord::ALL.iter().map(|_| Vec::new()).collect();
    for (list, word) in lists::<StepWord>("step-words.csv", include_str!("data/step-words.csv")) {
        all[list as usize].push(word);
    }
    all.iter_mut().for_each(|words| words.sort());
    all
});

impl StepWord {
    /// Whether a folded word stands in the list.
    pub(crate) fn has(self, word: &str) -> bool {
        LISTS[self as usize].binary_search(&word).is_ok()
    }

    /// What stands in front of a word of the list at the end of this one, which may have lost an s as a plural does ("zuckerfreies").
    pub(crate) fn before(self, word: &str) -> Option<&str> {
        LISTS[self as usize].iter().find_map(|end| word.strip_suffix(end).or_else(|| word.strip_suffix(&singular(end))))
    }
}

//! The stable names of the kinds of findings, each with what it means.

use std::fmt;

/// What a kind of finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Topic {
    /// The line on which the program was called.
    Command,
    /// Files as a whole.
    Files,
    /// The text of a file, its keys and its values.
    Text,
    /// Amounts as they are written.
    Amounts,
    /// The larder and the house.
    House,
    /// A card by itself.
    Card,
    /// A card that cannot be made as it asks.
    Solving,
    /// What is said of a product that can be made.
    Product,
    /// What was read of a liquid.
    Readings,
    /// What a batch costs.
    Cost,
    /// The board and its plan.
    Plan,
    /// A card that is pasted or handed over.
    Handing,
}

macro_rules! codes {
    ($($topic:ident { $($name:ident = $text:literal : $description:literal,)* })*) => {
        /// The stable name of a kind of diagnostic.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
        pub enum Code {
            $($(#[doc = $description] #[serde(rename = $text)] $name,)*)*
        }

        impl Code {
            /// Every code there is.
            pub const ALL: &'static [Self] = &[$($(Self::$name,)*)*];

            pub(crate) fn as_str(self) -> &'static str {
                match self { $($(Self::$name => $text,)*)* }
            }

            pub(crate) fn description(self) -> &'static str {
                match self { $($(Self::$name => $description,)*)* }
            }

            /// What it is about.
            pub fn topic(self) -> Topic {
                match self { $($(Self::$name => Topic::$topic,)*)* }
            }
        }
    };
}

codes! {
    Command {
        BadArgument = "bad-argument": "An argument of the command line cannot be understood.",
    }
    Files {
        CannotWrite = "cannot-write": "A file could not be written.",
        CannotRead = "cannot-read": "A file could not be opened or is not UTF-8 text.",
        MissingLetters = "missing-letters": "A picture is drawn with letters that do not have all of its words.",
        TooLarge = "too-large": "The file is larger than any formula can be.",
    }
    Text {
        Syntax = "syntax": "The file is not valid TOML at this place.",
        UnknownKey = "unknown-key": "A key that a formula, larder or house file does not have.",
        MissingKey = "missing-key": "A key that must be there is not.",
        WrongType = "wrong-type": "The value is of another kind than the key takes.",
        HiddenCharacter = "hidden-character": "A name holds a control character or one that turns the text round it.",
    }
    Amounts {
        NotANumber = "not-a-number": "The amount does not begin with a number.",
        AmbiguousNumber = "ambiguous-number": "The number can be read in two ways: a comma may part thousands or decimals.",
        NoUnit = "no-unit": "The amount has no unit.",
        UnknownUnit = "unknown-unit": "The unit is not known.",
        AmbiguousUnit = "ambiguous-unit": "The unit means different things in different places.",
        EachOrAll = "each-or-all": "A size in brackets does not say whether one holds that, or all of them.",
        WrongDimension = "wrong-dimension": "The amount is of another kind than is asked for here.",
        OutOfRange = "out-of-range": "The value lies outside what is possible or known.",
        RatioBasis = "ratio-basis": "A ratio does not say whether it is by weight or by volume.",
    }
    House {
        UnknownLike = "unknown-like": "An ingredient is said to be like one that is not in the larder.",
        LikeCycle = "like-ring": "Ingredients are said to be like each other in a ring.",
        CannotRemove = "cannot-remove": "An entry tries to take away an allergen or a tag that its ingredient brings.",
        Contradiction = "contradiction": "Two keys say the same thing in different ways.",
        LeftOut = "left-out": "An entry of the larder has a mistake in it and cannot be used until it is mended.",
        NotHundred = "not-hundred": "The grams in 100 g do not add to 100.",
        SameName = "same-name": "Two entries or two formulas have the same name.",
        FilesUsed = "files-used": "The files of the house that everything was read with.",
        OutsideHouse = "outside-house": "A larder lies above the house, or above the card of no house.",
        Assumed = "assumed": "Something that a house may state is not stated, and a default was taken.",
    }
    Card {
        NoParts = "no-parts": "A card or a stage has nothing in it.",
        DuplicateName = "duplicate-name": "Two things on a card have the same name.",
        StageRule = "stage-rule": "A stage asks for what only the finished product can have.",
        StageOrder = "stage-order": "A stage is used above the place where it is made.",
        OwnPart = "own-part": "A part is the very thing that it goes into.",
        Unused = "unused": "Something on the card changes nothing.",
        OpenAmounts = "open-amounts": "The card leaves amounts open and gives nothing to find them by.",
        MixedBasis = "mixed-basis": "A ratio counts some of its parts by weight and some by volume.",
        LoneRatio = "lone-ratio": "A ratio has one part only.",
        UnknownWord = "unknown-word": "The key takes one of a few words, and this is not one of them.",
        NotADate = "not-a-date": "The day does not exist or is not written year first.",
        Misplaced = "misplaced": "A key stands under a heading that it does not belong to.",
        DrinkRule = "drink-rule": "A drink is poured: it has the amounts of one glass, and nothing to solve for.",
        More = "more": "There is more to say of a file than anyone would read.",
        Understood = "understood": "How something was read that can be read in more than one way.",
    }
    Solving {
        UnknownIngredient = "unknown-ingredient": "No ingredient, stage or formula of the house has this name.",
        CardCycle = "formula-ring": "A formula is made from itself, directly or through others.",
        CardDepth = "formula-depth": "Formulas are made from formulas more levels deep than is followed.",
        InnerCard = "inner-formula": "A formula of the house that is needed here cannot be made.",
        HoldsUnknown = "holds-unknown": "A part is strained out and what its solids keep is not known.",
        DensityUnknown = "density-unknown": "A solid is measured by volume and its bulk density is not known.",
        PieceUnknown = "piece-unknown": "Pieces are asked for and what one weighs is not known.",
        NoSize = "no-size": "Nothing says how much to make.",
        TooManyOpen = "too-many-open": "More parts are open than there are rules to fix them.",
        NotTold = "not-told-apart": "The targets do not tell the open parts apart.",
        OutOfReach = "out-of-reach": "A target lies outside what the parts can reach.",
        TargetMissed = "target-missed": "The amounts on the card do not give its target.",
        YieldImpossible = "yield-impossible": "The card says that it makes more than its parts can.",
        YieldLower = "yield-lower": "The card says that it makes less than its parts give.",
        NoDensity = "no-density": "A density that is needed cannot be computed.",
        NothingLeft = "nothing-left": "The strained solids would keep all of the liquid.",
    }
    Product {
        Stop = "stop": "A caution says not to make or serve the product as planned.",
        Caution = "caution": "A caution applies to the product, or may until something is stated.",
        NotStated = "not-stated": "Something that a caution or the allergens hang on is not stated.",
        BelowLegalMinimum = "below-legal-minimum": "The product is less than the law asks of its class.",
        PropertyUnknown = "property-unknown": "A property cannot honestly be given.",
        DoesNotApply = "does-not-apply": "The product has no such property: a program is told, a person need not be.",
        PropertyExtrapolated = "property-stretched": "A property is given outside the range in which its equation was checked.",
        ReadingDiffers = "reading-differs": "A reading of the batch and what its card makes differ by more than both can be off.",
        StopAdded = "stop-added": "A swap brings a danger that was not there.",
        IdentityOpen = "identity-open": "Nothing says that an ingredient is food: until somebody states it there is no date.",
        NotAStatement = "not-a-statement": "What should state that a thing is food says nothing that one could be held to.",
        RestrictedFood = "restricted-food": "An ingredient is food with a restriction.",
        AllergenAdded = "allergen-added": "A swap brings an allergen that was not there.",
        AlcoholAdded = "alcohol-added": "A swap brings alcohol into what had none.",
        NoLabel = "no-label": "No label is printed of what is stopped, has no date, is gone, or has an open question of what is in it.",
        LotPulled = "lot-pulled": "A lot of a product of the house was pulled.",
        LotBrings = "lot-brings": "A lot that stands there brings an allergen that the card of its product does not bring any more.",
        MoreThanLeft = "more-than-left": "More of a lot went in than the book has left of it.",
        DoesNotFit = "does-not-fit": "A batch does not fit into its vessel.",
    }
    Readings {
        NeedsAnother = "needs-another-reading": "What was read cannot tell sugar from alcohol, or tells nothing.",
        ReadingsContradict = "readings-contradict": "No liquid shows both of the readings.",
        OverSaturated = "over-saturated": "More sugar was read or asked for than stays dissolved.",
        NotLabelGrade = "not-label-grade": "A strength is too uncertain to be printed on a label.",
        PhCaution = "ph-caution": "A pH reading has a known way of being off.",
    }
    Cost {
        UnknownCurrency = "unknown-currency": "The code of a currency is not in ISO 4217.",
        MixedCurrencies = "mixed-currencies": "Prices of one batch are in different currencies.",
        NoPrice = "no-price": "Something costs money and no price of it is known.",
        StalePrice = "stale-price": "A price is older than the house lets prices be.",
    }
    Plan {
        ParWithoutUse = "par-without-use": "A product has a par and nothing says how fast it goes.",
        UnknownProduct = "unknown-product": "No formula of the house has the name of this product.",
        NoDate = "no-date": "A product has no date in the store that it is planned for.",
        Stopped = "stopped": "A product is not planned because a caution says stop.",
        PlanCycle = "plan-ring": "Products of a plan go into each other in a ring.",
        NotInTime = "not-in-time": "Something is needed before it can be ready.",
        BelowPar = "below-par": "The house opens with less than par.",
        ParBeyondLife = "par-beyond-life": "Par is more than is used before it expires.",
        SmallBatch = "small-batch": "A batch is smaller than is worth the work, because no more is used in its life.",
        LateOrder = "late-order": "Something cannot be delivered before it is needed.",
        WrongColumn = "wrong-column": "A table has other columns than are read here, or a row has too few cells.",
        WrongSeparator = "wrong-separator": "The cells of a table are not parted by commas.",
    }
    Handing {
        Asked = "asked": "Something stays open that only the maker of a recipe knows.",
        BundleWins = "bundle-wins": "A card that was handed over brings a name that the house has too: in that card its own counts.",
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

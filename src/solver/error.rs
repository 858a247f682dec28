//! Why there is no answer, as values: what was asked for, what can be had, and what limits it. The words are in
//! `solver::explain`; nothing else reads or writes them.
//!
//! A line is told by its index in the balance of a card's last stage: its parts in card order, behind them the water
//! that boils off.

use crate::card::TargetKind;
use crate::diagnostic::{Diagnostic, Span, Spanned};
use crate::mixture::acidity::ph::NoPh;

use super::balance::BalanceError;
use super::reach::{InTheWay, PhEnd, Reach};
use super::target::TargetValue;

/// Cards in cards are followed so many levels deep (ours: no bar goes beyond a few).
pub(super) const DEEPEST: usize = 50;

/// What is wrong with a part of a card.
#[derive(Clone, Debug, PartialEq)]
pub enum PartError {
    /// Nothing in the house has its name; a name that is near.
    Unknown(Option<String>),
    /// It is a stage that is made only later.
    StageOrder,
    /// The card that it is goes into itself: the cards on the way round, the first again at the end.
    Cycle(Vec<String>),
    /// Cards in cards, more than `DEEPEST` levels deep.
    TooDeep,
    /// The card that it is cannot be made as it stands.
    InnerCard,
    /// How much liquid its strained solids keep is not known.
    HoldsUnknown,
    /// What comes out of the strainer would be less than its dry solids (share of its mass).
    HoldsTooLow {
        /// As it is stated.
        holds: f64,
        /// The share of it that does not dissolve.
        solids: f64,
    },
    /// It is measured by volume, and what that weighs is not known.
    DensityUnknown,
    /// It is counted, and what one weighs is not known.
    PieceUnknown,
}

/// Why a card has no answer, or not the one that it asks for.
#[derive(Clone, Debug)]
pub enum SolveError {
    /// Something about one of its parts.
    Part {
        /// The name of the part.
        name: Spanned<String>,
        /// Where its amount stands.
        amount: Span,
        /// What.
        error: PartError,
    },
    /// An early stage has no masses.
    Stage(Span, BalanceError),
    /// The strained solids of the stage that stands here keep all of the liquid.
    NothingLeft(Span),
    /// It could be solved for any size, and states none.
    NoSize {
        /// Whether its parts are in ratio.
        ratio: bool,
    },
    /// More is open than there are targets.
    TooFewTargets {
        /// The lines that are open.
        open: Vec<usize>,
        /// Whether the size of a ratio is open as well.
        ratio: bool,
        /// The rules that there are: targets and the size.
        rules: usize,
        /// Whether one of them is the size.
        has_size: bool,
        /// Targets that its parts could meet and that would fix it.
        could_fix: Vec<TargetKind>,
    },
    /// Shares and doses that only a batch of nothing would meet.
    NotTheWhole,
    /// The amounts, with the targets before it, have decided a target already: over-determined.
    TargetMissed {
        /// What was asked.
        asked: TargetValue,
        /// What they give, in the same unit.
        gives: f64,
        /// The lines that were open.
        open: Vec<usize>,
        /// The targets that fixed them; none: the size did.
        by: Vec<TargetKind>,
    },
    /// The targets do not tell the open lines apart.
    NotTold {
        /// The open lines.
        open: Vec<usize>,
        /// The targets.
        by: Vec<TargetKind>,
        /// Two open lines that are made of the same.
        same: Option<(usize, usize)>,
    },
    /// No open line brings what a target counts.
    NotBrought {
        /// The target.
        asked: TargetValue,
        /// A line with a written amount that does bring it.
        written: Option<usize>,
    },
    /// A target outside the range of its parts.
    OutOfReach {
        /// The range, and what limits it.
        reach: Reach,
        /// Whether other targets were held.
        others_held: bool,
        /// For a target above it: the line whose own liquid has most, and how much.
        strongest: Option<(usize, f64)>,
        /// A written amount that leaves no room.
        in_the_way: Option<InTheWay>,
    },
    /// Only less than nothing of these lines would meet the rules.
    Negative {
        /// The lines.
        short: Vec<usize>,
        /// Whether amounts are written.
        written: bool,
        /// A written amount that leaves no room.
        in_the_way: Option<InTheWay>,
    },
    /// The batch is past a target before any water boils off, and has this value then.
    ThinnerThanUnboiled(TargetValue, f64),
    /// A target would boil off more water than there is.
    TooLittleWater,
    /// No pH can be computed to aim at (the number that was asked).
    NoPh(f64, NoPh),
    /// A pH outside what the parts reach: what was asked, with the least of the acid part, with the most.
    PhOutOfReach(f64, PhEnd, PhEnd),
    /// The engine has no answer, for a reason that is not of one target or part.
    Engine(BalanceError),
    /// The card asks here for a volume of something dry.
    Dry(Span),
    /// The batch has no volume that can be computed.
    NoVolume,
    /// The card has no part of this name.
    NotOnCard(NotOnCard),
    /// How much there is of this part is no weight and no volume.
    NotAnAmount(String),
}

impl SolveError {
    /// Whether it says all of a chain of cards at once, so that none of them need be blamed again.
    pub(super) fn is_of_the_chain(&self) -> bool {
        matches!(self, Self::Part { error: PartError::Cycle(_) | PartError::TooDeep, .. })
    }
}

/// A name that no part of a card has.
#[derive(Clone, Debug, PartialEq)]
pub struct NotOnCard {
    /// What was asked for.
    pub name: String,
    /// The parts that there are.
    pub parts: Vec<String>,
}

/// Why a batch cannot be adjusted.
#[derive(Clone, Debug)]
pub(super) enum AdjustError {
    /// What is on the shelf cannot be looked up.
    LookUp(Vec<Diagnostic>),
    /// Neither a reading nor another target is given.
    NothingRead,
    /// A pH is read or asked for.
    ByPh,
    /// So many parts on the shelf that not every set of them can be tried.
    TooManyParts(usize),
    /// No batch of this product can read so.
    Contradiction { product: String, readings: Vec<TargetValue>, why: String },
    /// What so much of the batch weighs cannot be computed.
    NoWeight,
    /// The card does not tell what this target would be.
    NoTarget(TargetKind),
    /// The density of the adjusted batch cannot be computed.
    NoDensity(BalanceError),
    /// Nothing on the shelf does it.
    OutOfReach {
        shelf: Vec<String>,
        /// What it shall be, and what it has where that is something else and can be computed.
        targets: Vec<(TargetValue, Option<f64>)>,
        /// What would do it with more parts at hand: name, grams, whether it is on the shelf.
        would: Option<Vec<(String, f64, bool)>>,
        /// Water to boil off instead, and what the pan holds then, grams.
        boil_off: Option<(f64, f64)>,
    },
}

/// Why a part cannot be swapped.
#[derive(Clone, Debug)]
pub(super) enum SwapError {
    /// The new part cannot be looked up.
    LookUp(Vec<Diagnostic>),
    /// The card has no such part.
    NotOnCard(NotOnCard),
    /// The old part is strained out again.
    Strained(String),
    /// The old part brings nothing that could be kept.
    BringsNothing(String),
    /// The new part brings none of what the old one is taken for.
    Lacks { new: String, old: String, kind: TargetKind },
    /// The old part never comes into the finished batch.
    NeverUsed(String),
    /// The volume of the batch cannot be computed.
    NoVolume,
    /// Less than nothing of these parts would have to go in.
    Negative {
        short: Vec<String>,
        /// Whether the water is one of them.
        water: bool,
        /// The old part and its grams.
        old: (String, f64),
        /// Grams of it that can go before something runs short.
        most_g: Option<f64>,
    },
    /// The engine has no answer.
    Engine(BalanceError),
}

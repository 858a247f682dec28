//! True, false, or not known: Kleene's strong logic of indeterminacy (S. C. Kleene, "Introduction to
//! Metamathematics", 1952, § 64), in which what is not known remembers what it hangs on.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use super::super::facts::Member;
use super::super::variables::Variable;

/// What would have to be stated: a variable, and for a set which member. Ordered by their names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// The variable.
    pub variable: Variable,
    /// What the set may or may not hold.
    pub member: Option<Member>,
}

impl Ord for Missing {
    fn cmp(&self, other: &Self) -> Ordering {
        let names = |m: &Self| (m.variable.name(), m.member.as_ref().map(|member| member.word().to_owned()));
        names(self).cmp(&names(other))
    }
}

impl PartialOrd for Missing {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// An answer. Not knowing is never the same as no.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Truth {
    /// Yes.
    True,
    /// No.
    False,
    /// It hangs on these.
    Unknown(BTreeSet<Missing>),
}

impl From<bool> for Truth {
    fn from(yes: bool) -> Self {
        if yes { Self::True } else { Self::False }
    }
}

impl Truth {
    /// It hangs on one thing.
    pub(crate) fn hangs_on(variable: Variable, member: Option<Member>) -> Self {
        Self::Unknown(BTreeSet::from([Missing { variable, member }]))
    }

    /// Both. One `False` decides, whatever the other is.
    #[must_use]
    pub(crate) fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::False, _) | (_, Self::False) => Self::False,
            (Self::True, known) | (known, Self::True) => known,
            (Self::Unknown(mut mine), Self::Unknown(theirs)) => {
                mine.extend(theirs);
                Self::Unknown(mine)
            }
        }
    }

    /// One at least. One `True` decides, whatever the other is.
    #[must_use]
    pub(crate) fn or(self, other: Self) -> Self {
        self.negate().and(other.negate()).negate()
    }

    /// The opposite; the opposite of not known is not known.
    #[must_use]
    pub(crate) fn negate(self) -> Self {
        match self {
            Self::True => Self::False,
            Self::False => Self::True,
            unknown => unknown,
        }
    }
}

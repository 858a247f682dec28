//! A set of which some may be in doubt.

use std::collections::BTreeSet;

/// What is in it, and what may be. The default is that nothing is known of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Members<T> {
    /// Surely in it.
    pub present: BTreeSet<T>,
    /// Perhaps in it.
    pub unsure: BTreeSet<T>,
    /// Whether anything else may be in it as well.
    pub open: bool,
}

impl<T> Default for Members<T> {
    fn default() -> Self {
        Self { present: BTreeSet::new(), unsure: BTreeSet::new(), open: true }
    }
}

impl<T: Ord + Clone> Members<T> {
    /// Exactly these, and nothing else.
    pub fn known<S: Into<T>>(members: impl IntoIterator<Item = S>) -> Self {
        Self { present: members.into_iter().map(Into::into).collect(), unsure: BTreeSet::new(), open: false }
    }

    /// Nothing, surely.
    pub fn none() -> Self {
        Self::known::<T>([])
    }

    /// Adds one that is surely there.
    pub fn add(&mut self, member: impl Into<T>) {
        self.present.insert(member.into());
    }

    /// Adds one that may be there.
    pub fn doubt(&mut self, member: impl Into<T>) {
        self.unsure.insert(member.into());
    }

    /// Whether it surely holds this one.
    pub fn has(&self, member: impl Into<T>) -> bool {
        self.present.contains(&member.into())
    }

    /// Whether this one was named, surely or in doubt.
    pub(crate) fn names(&self, member: impl Into<T>) -> bool {
        let member = member.into();
        self.present.contains(&member) || self.unsure.contains(&member)
    }

    /// Whether it may hold this one.
    pub fn may_hold(&self, member: impl Into<T>) -> bool {
        self.open || self.names(member)
    }

    /// All that either holds, and the doubt of both.
    pub(crate) fn unite(&mut self, other: &Self) {
        self.present.extend(other.present.iter().cloned());
        self.unsure.extend(other.unsure.iter().cloned());
        self.open |= other.open;
    }

    /// The least and the most that may be in it.
    pub(crate) fn count(&self) -> (usize, Option<usize>) {
        let most = (!self.open).then(|| self.present.union(&self.unsure).count());
        (self.present.len(), most)
    }
}

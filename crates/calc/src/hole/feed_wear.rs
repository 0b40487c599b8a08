//! The two figures that a process has: how fast, and what it takes off the tube.

/// The same of a hole's feed and of its wear.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FeedWear<T> {
    /// Of the feed.
    pub feed: T,
    /// Of the wear.
    pub wear: T,
}

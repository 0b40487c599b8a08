//! The job document: entries, edits, undo, results, words, files, shop.

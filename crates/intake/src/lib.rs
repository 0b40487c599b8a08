//! Foreign formats of hole tables, read into one edit and a report.

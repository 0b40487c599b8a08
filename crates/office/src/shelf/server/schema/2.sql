-- What a job is about, in a few columns for whoever asks the server itself, and whole for the list of a
-- desk that starts: made by the desk that saves, and made anew by one that knows more.

CREATE TABLE quillbore.digest (
  doc text COLLATE "C" PRIMARY KEY,
  version bytea NOT NULL,
  -- Which programs understand it: that of another kind is passed over.
  kind text NOT NULL,
  digest text NOT NULL,
  customer text, part text, drawing text, state text,
  opened date, due date,
  -- Whether it may have run records, or anything else that counts beyond it.
  has_records boolean NOT NULL
);
CREATE INDEX digest_customer ON quillbore.digest (lower(customer) text_pattern_ops);
CREATE INDEX digest_part ON quillbore.digest (lower(part) text_pattern_ops);
CREATE INDEX digest_drawing ON quillbore.digest (lower(drawing) text_pattern_ops);
CREATE INDEX digest_state ON quillbore.digest (state, due);

-- Keeps digests of documents that still have those versions.
CREATE FUNCTION quillbore.put_digests(
  p_docs text[], p_versions bytea[], p_kind text, p_digests text[],
  p_customers text[], p_parts text[], p_drawings text[], p_states text[], p_opened date[], p_due date[],
  p_has_records boolean[]
) RETURNS void
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
  INSERT INTO quillbore.digest AS there
    (doc, version, kind, digest, customer, part, drawing, state, opened, due, has_records)
  SELECT n.doc, n.version, p_kind, n.digest, n.customer, n.part, n.drawing, n.state, n.opened, n.due, n.has_records
    FROM unnest(p_docs, p_versions, p_digests, p_customers, p_parts, p_drawings, p_states, p_opened, p_due,
      p_has_records)
      AS n (doc, version, digest, customer, part, drawing, state, opened, due, has_records)
    JOIN quillbore.document d ON d.doc = n.doc AND d.version = n.version
  ON CONFLICT (doc) DO UPDATE SET
    version = excluded.version, kind = excluded.kind, digest = excluded.digest,
    customer = excluded.customer, part = excluded.part, drawing = excluded.drawing,
    state = excluded.state, opened = excluded.opened, due = excluded.due, has_records = excluded.has_records
$$;

UPDATE quillbore.about SET schema_number = 2;

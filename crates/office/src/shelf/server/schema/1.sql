-- The shelf: documents with all of their versions, what lies beside jobs, holds, one count of changes.
-- Nothing is deleted; what is replaced is kept.

CREATE SCHEMA quillbore;

-- One row: which schema this is, which shelf, and how many changes there were. Whoever writes locks it,
-- so that changes are numbered in the order in which they can be seen.
CREATE TABLE quillbore.about (
  one boolean PRIMARY KEY DEFAULT true CHECK (one),
  schema_number integer NOT NULL,
  least_program integer NOT NULL,
  mark text CHECK (mark ~ '^[0-9a-f]{32}$'),
  -- A copy of another shelf that is not whole yet: nobody works in it.
  is_half_copied boolean NOT NULL DEFAULT false,
  last_change bigint NOT NULL DEFAULT 0
);

-- Every version of every document; no content where it was taken away.
CREATE TABLE quillbore.revision (
  change bigint PRIMARY KEY,
  commit_id bytea NOT NULL,
  doc text COLLATE "C" NOT NULL,
  version bytea,
  content bytea,
  saved_by text NOT NULL,
  saved_at timestamptz NOT NULL DEFAULT clock_timestamp(),
  CHECK ((version IS NULL) = (content IS NULL))
);
CREATE INDEX revision_of_doc ON quillbore.revision (doc, change);
CREATE INDEX revision_of_commit ON quillbore.revision (commit_id);

-- Which version stands, and which was replaced last.
CREATE TABLE quillbore.document (
  doc text COLLATE "C" PRIMARY KEY,
  change bigint NOT NULL REFERENCES quillbore.revision,
  version bytea,
  replaced bigint REFERENCES quillbore.revision
);
CREATE INDEX document_by_change ON quillbore.document (change);

-- What lies beside jobs, by the hash of its content; the content in parts, so that it can be streamed.
CREATE TABLE quillbore.content (
  version bytea PRIMARY KEY,
  bytes bigint NOT NULL
);
CREATE TABLE quillbore.content_part (
  version bytea NOT NULL,
  part integer NOT NULL,
  bytes bytea NOT NULL,
  PRIMARY KEY (version, part)
);
CREATE TABLE quillbore.attachment (
  job text COLLATE "C" NOT NULL,
  name text COLLATE "C" NOT NULL,
  version bytea NOT NULL REFERENCES quillbore.content,
  added_by text NOT NULL,
  added_at timestamptz NOT NULL DEFAULT clock_timestamp(),
  PRIMARY KEY (job, name)
);

-- Who has a job open, and until when that counts if nothing more is heard of that desk. The clock is
-- the server's alone.
CREATE TABLE quillbore.hold (
  job text COLLATE "C" PRIMARY KEY,
  desk text NOT NULL,
  token bytea NOT NULL,
  until timestamptz NOT NULL
);

-- The next change: whoever asks has the count locked until the end of its transaction.
CREATE FUNCTION quillbore.lock_count() RETURNS bigint
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
  SELECT last_change FROM quillbore.about WHERE one FOR UPDATE
$$;

-- Gives a document a version, or none where it is taken away, as the change that is named.
CREATE FUNCTION quillbore.set_version(
  p_change bigint, p_commit bytea, p_by text, p_doc text, p_version bytea, p_content bytea
) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  IF p_content IS NOT NULL AND sha256(p_content) <> p_version THEN
    RAISE EXCEPTION 'the content of % did not arrive as it was sent', p_doc USING ERRCODE = 'data_corrupted';
  END IF;
  INSERT INTO quillbore.revision (change, commit_id, doc, version, content, saved_by)
    VALUES (p_change, p_commit, p_doc, p_version, p_content, p_by);
  INSERT INTO quillbore.document AS there (doc, change, version)
    VALUES (p_doc, p_change, p_version)
    ON CONFLICT (doc) DO UPDATE SET
      change = p_change,
      version = p_version,
      -- What is taken away is not replaced.
      replaced = CASE WHEN there.version IS NULL OR p_version IS NULL THEN there.replaced ELSE there.change END;
END
$$;

-- Whoever writes parts of a content, or takes them for whole, does so alone.
CREATE FUNCTION quillbore.lock_content(p_version bytea) RETURNS void
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
  SELECT pg_advisory_xact_lock(hashtextextended('quillbore content ' || encode(p_version, 'hex'), 0))
$$;

-- A part of a large content, ahead of the commit that it belongs to. One that is whole stays as it is;
-- what is left of an earlier try, or of a hand that meant no good, makes way for the first part.
CREATE FUNCTION quillbore.put_part(p_version bytea, p_part integer, p_bytes bytea) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  PERFORM quillbore.lock_content(p_version);
  IF EXISTS (SELECT FROM quillbore.content c WHERE c.version = p_version) THEN
    RETURN;
  END IF;
  IF p_part = 0 THEN
    DELETE FROM quillbore.content_part c WHERE c.version = p_version;
  END IF;
  INSERT INTO quillbore.content_part (version, part, bytes) VALUES (p_version, p_part, p_bytes)
    ON CONFLICT (version, part) DO UPDATE SET bytes = excluded.bytes;
END
$$;

-- Takes the parts of a content for whole, where they are what its version says.
CREATE FUNCTION quillbore.settle_content(p_version bytea, p_size bigint, p_name text) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  whole bytea;
BEGIN
  PERFORM quillbore.lock_content(p_version);
  IF EXISTS (SELECT FROM quillbore.content c WHERE c.version = p_version) THEN
    RETURN;
  END IF;
  SELECT string_agg(c.bytes, ''::bytea ORDER BY c.part) INTO whole
    FROM quillbore.content_part c WHERE c.version = p_version;
  IF sha256(coalesce(whole, ''::bytea)) <> p_version OR length(whole) IS DISTINCT FROM p_size THEN
    RAISE EXCEPTION '% did not arrive as it was sent', p_name USING ERRCODE = 'data_corrupted';
  END IF;
  INSERT INTO quillbore.content (version, bytes) VALUES (p_version, p_size);
END
$$;

-- Writes files and documents against the versions that they rest on. One row says what it came to;
-- where others saved meanwhile, one for each such document. The content of a file is NULL where its
-- parts were put already.
CREATE FUNCTION quillbore.put(
  p_mark text, p_commit bytea, p_by text,
  p_docs text[], p_expected bytea[], p_versions bytea[], p_contents bytea[],
  p_jobs text[], p_names text[], p_files bytea[], p_sizes bigint[], p_bytes bytea[]
) RETURNS TABLE (came_to text, name text, beside text)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  change bigint := quillbore.lock_count();
  stands bytea;
  stands_all bytea[] := '{}';
  there text;
  has_changed boolean := false;
  before bigint := change;
  part_of_name text;
BEGIN
  SELECT mark INTO there FROM quillbore.about;
  IF there IS NULL THEN
    RETURN QUERY SELECT 'unmarked', NULL::text, NULL::text; RETURN;
  ELSIF there IS DISTINCT FROM p_mark THEN
    RETURN QUERY SELECT 'another shelf', NULL::text, NULL::text; RETURN;
  END IF;
  FOREACH part_of_name IN ARRAY p_docs || p_jobs || p_names LOOP
    IF part_of_name !~ '^[^/\\[:cntrl:]]{1,250}$' OR part_of_name ~ '^\.' THEN
      RAISE EXCEPTION 'a shelf keeps nothing under the name %', quote_literal(part_of_name);
    END IF;
  END LOOP;
  -- The line broke after it was done, and it is asked again.
  IF EXISTS (SELECT FROM quillbore.revision r WHERE r.commit_id = p_commit) THEN
    RETURN QUERY SELECT 'done', NULL::text, NULL::text; RETURN;
  END IF;
  FOR i IN 1 .. cardinality(p_docs) LOOP
    stands := (SELECT d.version FROM quillbore.document d WHERE d.doc = p_docs[i]);
    stands_all := array_append(stands_all, stands);
    IF p_expected[i] IS NULL AND stands IS NOT NULL THEN
      RETURN QUERY SELECT 'taken', p_docs[i], NULL::text; RETURN;
    ELSIF p_expected[i] IS NOT NULL AND stands IS NULL THEN
      RETURN QUERY SELECT 'gone', p_docs[i], NULL::text; RETURN;
    END IF;
  END LOOP;
  FOR i IN 1 .. cardinality(p_docs) LOOP
    IF stands_all[i] <> p_versions[i] AND stands_all[i] <> p_expected[i] THEN
      has_changed := true;
      RETURN QUERY SELECT 'changed', p_docs[i], NULL::text;
    END IF;
  END LOOP;
  IF has_changed THEN RETURN; END IF;
  FOR i IN 1 .. cardinality(p_jobs) LOOP
    stands := (SELECT a.version FROM quillbore.attachment a WHERE a.job = p_jobs[i] AND a.name = p_names[i]);
    IF stands <> p_files[i] THEN
      RETURN QUERY SELECT 'file taken', p_jobs[i], p_names[i]; RETURN;
    END IF;
  END LOOP;
  FOR i IN 1 .. cardinality(p_jobs) LOOP
    IF p_bytes[i] IS NOT NULL THEN
      PERFORM quillbore.put_part(p_files[i], 0, p_bytes[i]);
    END IF;
    PERFORM quillbore.settle_content(p_files[i], p_sizes[i], p_names[i]);
    INSERT INTO quillbore.attachment (job, name, version, added_by)
      VALUES (p_jobs[i], p_names[i], p_files[i], p_by) ON CONFLICT DO NOTHING;
  END LOOP;
  FOR i IN 1 .. cardinality(p_docs) LOOP
    IF stands_all[i] IS DISTINCT FROM p_versions[i] THEN
      change := change + 1;
      PERFORM quillbore.set_version(change, p_commit, p_by, p_docs[i], p_versions[i], p_contents[i]);
    END IF;
  END LOOP;
  IF change > before THEN
    UPDATE quillbore.about SET last_change = change;
    PERFORM pg_notify('quillbore', change::text);
  END IF;
  RETURN QUERY SELECT 'done', NULL::text, NULL::text;
END
$$;

-- Takes a document out of the list; all of its versions stay. For the owner alone.
CREATE FUNCTION quillbore.take_away(p_doc text) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  change bigint := quillbore.lock_count() + 1;
BEGIN
  IF NOT EXISTS (SELECT FROM quillbore.document d WHERE d.doc = p_doc AND d.version IS NOT NULL) THEN
    RAISE EXCEPTION 'there is no %', p_doc;
  END IF;
  PERFORM quillbore.set_version(change, sha256(convert_to(p_doc || change, 'UTF8')), session_user, p_doc, NULL, NULL);
  UPDATE quillbore.about SET last_change = change;
  PERFORM pg_notify('quillbore', change::text);
END
$$;

-- What is other since a change, told by its number and the commit that made it: one that another
-- server made, or one from before a restore, is none that anybody can go on from. The first row says
-- how far it is told, and whether every document is named.
CREATE FUNCTION quillbore.changes(p_since bigint, p_commit bytea)
RETURNS TABLE (doc text, is_there boolean, last_change bigint, last_commit bytea, is_all boolean)
LANGUAGE plpgsql STABLE SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  last bigint := (SELECT a.last_change FROM quillbore.about a);
  known boolean := p_since = 0
    OR EXISTS (SELECT FROM quillbore.revision r WHERE r.change = p_since AND r.commit_id = p_commit);
BEGIN
  known := coalesce(known AND p_since <= last, false);
  RETURN QUERY SELECT NULL::text, NULL::boolean, last,
    coalesce((SELECT r.commit_id FROM quillbore.revision r WHERE r.change = last), ''::bytea), NOT known;
  RETURN QUERY SELECT d.doc, d.version IS NOT NULL, NULL::bigint, NULL::bytea, NULL::boolean
    FROM quillbore.document d
    WHERE CASE WHEN known THEN d.change > p_since ELSE d.version IS NOT NULL END;
END
$$;

-- The highest running number of a year among the names of jobs and of what lies beside them.
CREATE FUNCTION quillbore.highest_number(p_year text, p_highest integer) RETURNS integer
LANGUAGE sql STABLE SET search_path = pg_catalog, pg_temp AS $$
  WITH named AS (
    SELECT doc AS name FROM quillbore.document
      WHERE doc COLLATE "C" >= p_year || '-' AND doc COLLATE "C" < p_year || '.'
    UNION ALL
    SELECT job FROM quillbore.attachment
      WHERE job COLLATE "C" >= p_year || '-' AND job COLLATE "C" < p_year || '.'
  ), digits AS (
    SELECT ltrim(substr(name, length(p_year) + 2), '0') AS number FROM named
      WHERE substr(name, length(p_year) + 2) ~ '^[0-9]+$'
  ), numbers AS (
    SELECT CASE WHEN length(number) > 9 THEN NULL WHEN number = '' THEN 0 ELSE number::integer END AS number
      FROM digits
  )
  SELECT max(number) FROM numbers WHERE number <= p_highest
$$;

-- The end of a hold of so many seconds from now; of ten minutes at most, whatever is asked for.
CREATE FUNCTION quillbore.hold_until(p_seconds double precision) RETURNS timestamptz
LANGUAGE sql VOLATILE SET search_path = pg_catalog, pg_temp AS $$
  SELECT clock_timestamp() + make_interval(secs => least(p_seconds, 600))
$$;

-- Holds a job for a desk, for so many seconds; whether it could, else who has it. Where the server's
-- clock was set back, a hold would last longer than anybody asked for: it is cut to what is asked now,
-- and a desk that is there renews it.
CREATE FUNCTION quillbore.take_hold(p_job text, p_desk text, p_token bytea, p_seconds double precision)
RETURNS TABLE (is_held boolean, by text)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  INSERT INTO quillbore.hold AS there (job, desk, token, until)
    VALUES (p_job, p_desk, p_token, quillbore.hold_until(p_seconds))
    ON CONFLICT (job) DO UPDATE SET
      desk = excluded.desk, token = excluded.token, until = excluded.until
      WHERE there.until < clock_timestamp() OR there.token = p_token;
  UPDATE quillbore.hold SET until = quillbore.hold_until(p_seconds)
    WHERE job = p_job AND until > quillbore.hold_until(p_seconds);
  RETURN QUERY SELECT h.token = p_token, h.desk FROM quillbore.hold h WHERE h.job = p_job;
END
$$;

-- Keeps holds for so many seconds more, or lets go of them; how many of them were still there.
CREATE FUNCTION quillbore.keep_holds(p_tokens bytea[], p_seconds double precision) RETURNS bigint
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
  WITH kept AS (
    UPDATE quillbore.hold SET until = quillbore.hold_until(p_seconds)
      WHERE token = ANY (p_tokens) RETURNING 1
  ) SELECT count(*) FROM kept
$$;

-- Makes it a shelf; one that has a mark keeps it.
CREATE FUNCTION quillbore.adopt(p_mark text) RETURNS text
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
  UPDATE quillbore.about SET mark = coalesce(mark, p_mark) RETURNING mark
$$;

-- Makes it the place of a copy of the shelf with a mark, which nobody works in until the copy is whole:
-- 'unfinished'. One that is that shelf already stays as it is: 'whole'; one in which anything was kept as
-- another shelf: 'another'. For the owner.
CREATE FUNCTION quillbore.begin_copy(p_mark text) RETURNS text
LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  there quillbore.about;
BEGIN
  PERFORM quillbore.lock_count();
  SELECT * INTO there FROM quillbore.about;
  IF there.mark = p_mark THEN
    RETURN CASE WHEN there.is_half_copied THEN 'unfinished' ELSE 'whole' END;
  ELSIF there.mark IS NOT NULL
    AND (there.is_half_copied OR there.last_change > 0 OR EXISTS (SELECT FROM quillbore.attachment)) THEN
    RETURN 'another';
  END IF;
  UPDATE quillbore.about SET mark = p_mark, is_half_copied = true;
  RETURN 'unfinished';
END
$$;

-- The copy is whole. For the owner.
CREATE FUNCTION quillbore.end_copy() RETURNS void
LANGUAGE sql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
  UPDATE quillbore.about SET is_half_copied = false
$$;

INSERT INTO quillbore.about (schema_number, least_program) VALUES (1, 1);

-- Who may do what: readers look, desks write through the functions and never change or delete what is
-- there, the owner looks after the tables. Roles are of the whole server, so they may be there already.

REVOKE ALL ON ALL FUNCTIONS IN SCHEMA quillbore FROM PUBLIC;
GRANT USAGE ON SCHEMA quillbore TO quillbore_reader, quillbore_desk, quillbore_owner;
GRANT SELECT ON ALL TABLES IN SCHEMA quillbore TO quillbore_reader, quillbore_desk, quillbore_owner;
GRANT EXECUTE ON FUNCTION
  quillbore.changes, quillbore.highest_number
  TO quillbore_reader, quillbore_desk, quillbore_owner;
GRANT EXECUTE ON FUNCTION
  quillbore.put, quillbore.put_part, quillbore.put_digests, quillbore.take_hold, quillbore.keep_holds
  TO quillbore_desk, quillbore_owner;
GRANT EXECUTE ON FUNCTION quillbore.adopt, quillbore.begin_copy, quillbore.end_copy, quillbore.take_away TO quillbore_owner;

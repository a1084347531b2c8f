-- Files on their way in, and the mark that names this clinic's rows in files that leave it.

create table exchange_mark (
  mark varchar(12) primary key
);

create sequence import_run_seq start with 1 increment by 50;
create table import_run (
  id bigint primary key,
  version integer not null,
  state varchar(32) not null,
  started_by bigint,
  starter_name varchar(200) not null,
  made_at timestamp(6) with time zone not null,
  heard_at timestamp(6) with time zone not null,
  now_reading varchar(64),
  rows_done bigint not null,
  rows_of bigint not null,
  outcome_json text
);
create index import_run_made on import_run (made_at);

-- The files of a run until it has entered them; they hold patients' data and go as soon as they can.
create sequence import_file_seq start with 1 increment by 50;
create table import_file (
  id bigint primary key,
  run_id bigint not null references import_run (id),
  position integer not null,
  what varchar(64) not null,
  file_name varchar(200) not null,
  content text not null
);
create index import_file_run on import_file (run_id);

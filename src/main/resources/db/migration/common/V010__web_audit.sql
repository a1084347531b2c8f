-- The trail and the answers kept for repeated calls.

create sequence audit_entry_seq start with 1 increment by 50;
create table audit_entry (
  id bigint primary key,
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  staff_id bigint,
  actor_name varchar(200) not null,
  subject_kind varchar(32) not null,
  subject_id varchar(64) not null,
  location_id bigint,
  action varchar(64) not null,
  late_reason varchar(500),
  before_json text,
  after_json text
);
create index audit_entry_subject on audit_entry (subject_kind, subject_id, happened_at);

create sequence idempotent_call_seq start with 1 increment by 50;
create table idempotent_call (
  id bigint primary key,
  account varchar(100) not null,
  call_key varchar(255) not null,
  route varchar(200) not null,
  body_hash varchar(64) not null,
  status integer not null,
  answer text,
  made_at timestamp(6) with time zone not null,
  constraint idempotent_call_once unique (account, call_key)
);
create index idempotent_call_made on idempotent_call (made_at);

-- What patients are told and when; the messages that carry it; who must not be written to any more.

create sequence message_seq start with 1 increment by 50;
create table message (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  patient_id bigint not null references patient (id),
  route varchar(8) not null,
  state varchar(12) not null,
  on_day date not null,
  -- The day while the message stands: of two for one patient and day, one is refused.
  standing_on date,
  next_at timestamp(6) with time zone not null,
  claimed_until timestamp(6) with time zone,
  tries integer not null,
  mail_id varchar(120) not null,
  sent_to varchar(254),
  sent_at timestamp(6) with time zone,
  trouble varchar(300),
  constraint message_mail unique (mail_id),
  constraint message_day unique (patient_id, standing_on)
);
create index message_next on message (state, next_at);
create index message_location on message (location_id, on_day);

create sequence reminder_seq start with 1 increment by 50;
create table reminder (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  patient_id bigint not null references patient (id),
  loan_id bigint references loan (id),
  appointment_id bigint references appointment (id),
  -- Subject, kind, channel and the day it is about: nothing is told twice.
  occasion varchar(120) not null,
  kind varchar(40) not null,
  step varchar(8) not null,
  route varchar(8) not null,
  state varchar(12) not null,
  about_on date not null,
  on_day date not null,
  due_at timestamp(6) with time zone not null,
  useful_until timestamp(6) with time zone,
  message_id bigint references message (id),
  words varchar(300) not null,
  why varchar(300),
  tries integer not null,
  ended_at timestamp(6) with time zone,
  ended_by varchar(200),
  constraint reminder_occasion unique (occasion)
);
create index reminder_due on reminder (state, due_at);
create index reminder_patient on reminder (patient_id, state);
create index reminder_location on reminder (location_id, state, due_at);
create index reminder_message on reminder (message_id);

-- An address that came back or was refused, or a person who wants no more of it. A new address is free again.
create sequence contact_stop_seq start with 1 increment by 50;
create table contact_stop (
  id bigint primary key,
  version integer not null,
  patient_id bigint not null references patient (id),
  route varchar(8) not null,
  address varchar(254) not null,
  reason varchar(12) not null,
  words varchar(300),
  stopped_at timestamp(6) with time zone not null,
  constraint contact_stop_once unique (patient_id, route, address)
);

-- What a patient's link or a message's way out opens. Only the hash is kept.
create sequence patient_token_seq start with 1 increment by 50;
create table patient_token (
  id bigint primary key,
  version integer not null,
  hash varchar(64) not null,
  purpose varchar(8) not null,
  patient_id bigint not null references patient (id),
  loan_id bigint references loan (id),
  route varchar(8),
  address varchar(254),
  made_at timestamp(6) with time zone not null,
  ends_at timestamp(6) with time zone not null,
  revoked_at timestamp(6) with time zone,
  constraint patient_token_hash unique (hash)
);
create index patient_token_loan on patient_token (loan_id);

-- The clinic's own wording of a message. What is not here is said as config/message-words.yaml has it.
create sequence wording_seq start with 1 increment by 50;
create table wording (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  kind varchar(40) not null,
  language varchar(2) not null,
  words varchar(600) not null,
  constraint wording_once unique (location_id, kind, language)
);

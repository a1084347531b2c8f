-- Patients, what they and their therapists said before a muscle is stimulated, orders and consents.

create sequence patient_seq start with 1 increment by 50;
create table patient (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  location_id bigint not null references location (id),
  chart_number varchar(32) not null,
  chart_search varchar(32) not null,
  name varchar(120) not null,
  name_search varchar(160) not null,
  birth_date date not null,
  guardian_name varchar(120),
  guardian_relation varchar(60),
  language varchar(16) not null,
  interpreter boolean not null,
  reach_by varchar(32) not null,
  phone varchar(40),
  email varchar(254),
  address varchar(300),
  reminders_allowed boolean not null,
  died_on date,
  constraint patient_ref unique (ref),
  constraint patient_chart unique (chart_search)
);
create index patient_name on patient (name_search);
create index patient_birth on patient (birth_date);
create index patient_location on patient (location_id);

-- What the patient (or the guardian) answered; a later one replaces an earlier one.
create sequence intake_seq start with 1 increment by 50;
create table intake (
  id bigint primary key,
  patient_id bigint not null references patient (id),
  region varchar(40),
  side varchar(32),
  language varchar(16) not null,
  answered_by varchar(120) not null,
  means varchar(32) not null,
  answered_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  entered_by bigint
);
create index intake_patient on intake (patient_id, answered_at);

create sequence intake_answer_seq start with 1 increment by 50;
create table intake_answer (
  id bigint primary key,
  intake_id bigint not null references intake (id),
  question varchar(40) not null,
  answer varchar(32) not null,
  constraint intake_answer_once unique (intake_id, question)
);

-- What the therapist confirmed for one region and side. A newer one for the same supersedes it.
create sequence screening_seq start with 1 increment by 50;
create table screening (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  patient_id bigint not null references patient (id),
  region varchar(40) not null,
  side varchar(32) not null,
  screened_by bigint,
  screened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  superseded_at timestamp(6) with time zone,
  outdated_at timestamp(6) with time zone,
  outdated_reason varchar(500),
  constraint screening_ref unique (ref)
);
create index screening_patient on screening (patient_id, region);

create sequence screening_answer_seq start with 1 increment by 50;
create table screening_answer (
  id bigint primary key,
  screening_id bigint not null references screening (id),
  question varchar(40) not null,
  answer varchar(32) not null,
  note varchar(500),
  accepted_by bigint,
  accepted_at timestamp(6) with time zone,
  accepted_reason varchar(500),
  constraint screening_answer_once unique (screening_id, question)
);

create sequence clearance_seq start with 1 increment by 50;
create table clearance (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  patient_id bigint not null references patient (id),
  question varchar(40) not null,
  region varchar(40),
  side varchar(32),
  cleared_by varchar(120) not null,
  cleared_on date not null,
  valid_until date,
  scope varchar(500) not null,
  recorded_by bigint,
  recorded_at timestamp(6) with time zone not null,
  withdrawn_at timestamp(6) with time zone,
  withdrawn_reason varchar(500),
  constraint clearance_ref unique (ref)
);
create index clearance_patient on clearance (patient_id);

create sequence prescriber_order_seq start with 1 increment by 50;
create table prescriber_order (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  patient_id bigint not null references patient (id),
  prescriber varchar(120) not null,
  ordered_on date not null,
  ends_on date,
  ordered varchar(500) not null,
  restrictions varchar(1000),
  recorded_by bigint,
  recorded_at timestamp(6) with time zone not null,
  withdrawn_at timestamp(6) with time zone,
  withdrawn_reason varchar(500),
  constraint prescriber_order_ref unique (ref)
);
create index prescriber_order_patient on prescriber_order (patient_id);

-- A consent given or refused; the latest of its kind counts. The program is named where it is for one alone.
create sequence consent_seq start with 1 increment by 50;
create table consent (
  id bigint primary key,
  ref varchar(64),
  patient_id bigint not null references patient (id),
  kind varchar(32) not null,
  program_id bigint,
  given boolean not null,
  text_version varchar(40) not null,
  language varchar(16) not null,
  signer varchar(120) not null,
  relation varchar(60) not null,
  means varchar(32) not null,
  signed_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  recorded_by bigint,
  constraint consent_ref unique (ref)
);
create index consent_patient on consent (patient_id, kind, signed_at);

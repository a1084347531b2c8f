-- Incidents: what happened and how everything stood, as text that nothing changes any more.

create sequence incident_seq start with 1 increment by 50;
create table incident (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  kind varchar(16) not null,
  harm varchar(16) not null,
  patient_id bigint references patient (id),
  loan_id bigint references loan (id),
  unit_id bigint references unit (id),
  words varchar(1000) not null,
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  by_name varchar(200) not null,
  aware_on date not null,
  report_days integer not null,
  snapshot text not null,
  state varchar(16) not null,
  closed_at timestamp(6) with time zone,
  closed_by varchar(200),
  closed_words varchar(500)
);
create index incident_location on incident (location_id, state);
create index incident_patient on incident (patient_id);
create index incident_unit on incident (unit_id, state);
create index incident_loan on incident (loan_id);

create sequence incident_told_seq start with 1 increment by 50;
create table incident_told (
  id bigint primary key,
  incident_id bigint not null references incident (id),
  whom varchar(16) not null,
  told boolean not null,
  spoke_with varchar(120),
  reference varchar(120),
  words varchar(500),
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  late_reason varchar(500),
  by_name varchar(200) not null
);
create index incident_told_incident on incident_told (incident_id);

-- Pads that must not be used any more although nobody threw them away.
alter table pad_set add column held_reason varchar(200);

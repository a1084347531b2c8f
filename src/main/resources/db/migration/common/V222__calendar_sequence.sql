-- Calendars hear of a change by its number, which rises with time, therapist and cancelling only. It never sinks: it begins where the feeds stood.
alter table appointment add column feed_sequence integer default 0 not null;
update appointment set feed_sequence = version;

-- A therapist who no longer has an appointment is told so: their calendar would keep it otherwise.
create sequence handed_over_seq start with 1 increment by 50;
create table handed_over (
  id bigint primary key,
  version integer not null,
  appointment_id bigint not null references appointment (id),
  therapist_id bigint not null references staff (id),
  starts_at timestamp(6) with time zone not null,
  ends_at timestamp(6) with time zone not null,
  feed_sequence integer not null,
  handed_at timestamp(6) with time zone not null,
  constraint handed_over_once unique (appointment_id, therapist_id)
);
create index handed_over_therapist on handed_over (therapist_id, starts_at);

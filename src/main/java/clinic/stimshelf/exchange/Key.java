package clinic.stimshelf.exchange;

/**
 * What a cell may point at by its code, and where the codes stand. Each query gives the code, the
 * number and the number of the location it belongs to, if any.
 */
enum Key {
  LOCATION("location", "the code of a location of yours", "select code, id, id from location"),
  STAFF("staff member", "the ref of a staff member", "select ref, id, null from staff"),
  PATIENT(
      "patient",
      "the chart number of a patient at your locations",
      "select chart_number, id, location_id from patient"),
  PAD_TYPE("pad type", "the code of a pad type", "select code, id, null from pad_type"),
  PAD_LOT(
      "lot",
      "a lot, written code:lot",
      "select t.code || ':' || l.lot_number, l.id, null from pad_lot l"
          + " join pad_type t on t.id = l.pad_type_id"),
  UNIT("unit", "the tag of a unit at your locations", "select tag, id, location_id from unit"),
  PROGRAM(
      "program",
      "the ref of a program at your locations",
      "select coalesce(p.ref, k.mark || '-program-' || cast(p.id as varchar(20))), p.id,"
          + " p.location_id from program p, exchange_mark k"),
  LOAN(
      "loan",
      "the ref of a loan at your locations",
      "select coalesce(l.ref, k.mark || '-loan-' || cast(l.id as varchar(20))), l.id,"
          + " l.location_id from loan l, exchange_mark k"),
  ROOM(
      "room",
      "the name of a room of the location, written location/room",
      "select l.code || '/' || r.name, r.id, l.id from room r join location l"
          + " on l.id = r.location_id");

  private final String noun;
  private final String allowed;
  private final String query;

  Key(String noun, String allowed, String query) {
    this.noun = noun;
    this.allowed = allowed;
    this.query = query;
  }

  String noun() {
    return noun;
  }

  String allowed() {
    return allowed;
  }

  String query() {
    return query;
  }
}

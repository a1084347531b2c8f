package clinic.stimshelf.exchange;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.UUID;

/**
 * The clinic's records as resources of HL7 FHIR R4 (4.0.1). R4 has no resource for a loan: the time
 * a unit spends with a patient is a DeviceUseStatement, packs handed out are a SupplyDelivery.
 * Resources refer to one another by UUIDs that are made from what they stand for, so that the same
 * record is the same resource in every file.
 */
final class FhirResources {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;
  private static final String CODES = "http://terminology.hl7.org/CodeSystem/";

  private FhirResources() {}

  /** What a reference points to. */
  enum Of {
    LOCATION,
    PATIENT,
    UNIT,
    LOAN,
    PACKS,
    APPOINTMENT
  }

  static String address(Of of, Object id) {
    return "urn:uuid:"
        + UUID.nameUUIDFromBytes(("stimshelf " + of + " " + id).getBytes(StandardCharsets.UTF_8));
  }

  static ObjectNode location(String code, String name) {
    ObjectNode location = resource("Location");
    identified(location, "location", code);
    location.put("status", "active").put("name", name).put("mode", "instance");
    return location;
  }

  static ObjectNode patient(String chartNumber, String name, LocalDate birthDate) {
    ObjectNode patient = resource("Patient");
    identified(patient, "chart-number", chartNumber);
    patient.putArray("name").addObject().put("use", "official").put("text", name);
    patient.put("birthDate", birthDate.toString());
    return patient;
  }

  /**
   * @param state as the shelf says it
   */
  static ObjectNode device(String tag, String serial, String kind, String state, Long locationId) {
    ObjectNode device = resource("Device");
    identified(device, "unit-tag", tag);
    device.put("status", state.equals("RETIRED") ? "inactive" : "active");
    device.put("serialNumber", serial);
    device.putArray("deviceName").addObject().put("name", kind).put("type", "user-friendly-name");
    device.putObject("type").put("text", "Neuromuscular electrical stimulator");
    refer(device, "location", Of.LOCATION, locationId);
    note(device, "On the shelf: " + state.toLowerCase(Locale.ROOT).replace('_', ' '));
    return device;
  }

  static ObjectNode use(
      String state, Long patientId, Long unitId, Instant from, Instant to, LocalDate dueOn) {
    ObjectNode use = resource("DeviceUseStatement");
    use.put(
        "status",
        switch (state) {
          case "OUT", "MISSING" -> "active";
          case "VOID" -> "entered-in-error";
          default -> "completed";
        });
    refer(use, "subject", Of.PATIENT, patientId);
    period(use.putObject("timingPeriod"), from, to);
    refer(use, "device", Of.UNIT, unitId);
    note(
        use,
        "Lent to the patient, due back on "
            + dueOn
            + (state.equals("MISSING")
                ? "; reported as missing"
                : state.equals("LOST") ? "; never came back, written off" : ""));
    return use;
  }

  static ObjectNode supply(
      Long patientId, int packs, String code, String name, String lot, Instant at, Long placeId) {
    ObjectNode supply = resource("SupplyDelivery");
    supply.put("status", "completed");
    refer(supply, "patient", Of.PATIENT, patientId);
    ObjectNode kind = supply.putObject("type");
    kind.putArray("coding")
        .addObject()
        .put("system", CODES + "supply-item-type")
        .put("code", "device")
        .put("display", "Device");
    ObjectNode item = supply.putObject("suppliedItem");
    item.putObject("quantity").put("value", packs).put("unit", "pack");
    ObjectNode what = item.putObject("itemCodeableConcept");
    what.putArray("coding").addObject().put("system", system("pad-code")).put("code", code);
    what.put("text", name + ", lot " + lot);
    supply.put("occurrenceDateTime", moment(at));
    refer(supply, "destination", Of.LOCATION, placeId);
    return supply;
  }

  static ObjectNode appointment(
      String state, Instant from, Instant to, Long patientId, String therapist, Long placeId) {
    ObjectNode appointment = resource("Appointment");
    appointment.put(
        "status",
        switch (state) {
          case "BOOKED" -> "booked";
          case "ARRIVED" -> "arrived";
          case "NO_SHOW" -> "noshow";
          case "CANCELLED" -> "cancelled";
          default -> "fulfilled";
        });
    appointment.put("start", moment(from)).put("end", moment(to));
    appointment.put("minutesDuration", Math.max(1, ChronoUnit.MINUTES.between(from, to)));
    ArrayNode participants = appointment.putArray("participant");
    refer(participants.addObject().put("status", "accepted"), "actor", Of.PATIENT, patientId);
    refer(participants.addObject().put("status", "accepted"), "actor", Of.LOCATION, placeId);
    if (therapist != null) {
      participants
          .addObject()
          .put("status", "accepted")
          .putObject("actor")
          .put("display", therapist);
    }
    return appointment;
  }

  private static ObjectNode resource(String type) {
    return JSON.objectNode().put("resourceType", type);
  }

  private static void identified(ObjectNode resource, String kind, String value) {
    resource.putArray("identifier").addObject().put("system", system(kind)).put("value", value);
  }

  private static String system(String kind) {
    return "urn:stimshelf:" + kind;
  }

  private static void refer(ObjectNode in, String field, Of of, Object id) {
    in.putObject(field).put("reference", address(of, id));
  }

  private static void note(ObjectNode in, String text) {
    in.putArray("note").addObject().put("text", text);
  }

  private static void period(ObjectNode period, Instant from, Instant to) {
    period.put("start", moment(from));
    if (to != null) {
      period.put("end", moment(to));
    }
  }

  static String moment(Instant at) {
    return at.truncatedTo(ChronoUnit.SECONDS).toString();
  }
}

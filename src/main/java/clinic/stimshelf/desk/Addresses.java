package clinic.stimshelf.desk;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;

/** Where the pages of the other rooms stand. Numbers and tags only: no address names a person. */
final class Addresses {
  private Addresses() {}

  static String unit(String tag) {
    return "/units/" + encoded(tag);
  }

  static String inspection(String tag) {
    return unit(tag) + "/inspection";
  }

  static String wipe(String tag) {
    return "/wipe?unit=" + encoded(tag);
  }

  static String patient(Object id) {
    return "/patients/" + id;
  }

  static String checkOut(Object programId, String tag) {
    return "/check-out?program=" + programId + (tag == null ? "" : "&unit=" + encoded(tag));
  }

  static String checkIn(Object loanId) {
    return "/check-in/" + loanId;
  }

  static String loan(Object loanId) {
    return "/loans/" + loanId;
  }

  static String call(Object loanId) {
    return "/calls/" + loanId;
  }

  static String pads(String code) {
    return "/pads/" + encoded(code);
  }

  static String lot(Object id) {
    return "/pads/lots/" + id;
  }

  static String receive(Object orderId) {
    return "/pads/receive" + (orderId == null ? "" : "?order=" + orderId);
  }

  static String order(Object id) {
    return "/pads/orders/" + id;
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }
}

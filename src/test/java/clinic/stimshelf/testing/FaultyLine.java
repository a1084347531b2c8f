package clinic.stimshelf.testing;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicInteger;

/** A line to an SMTP server that fails in the ways lines and servers do. */
public final class FaultyLine implements AutoCloseable {

  /** How it fails. */
  public enum Manner {
    FINE,
    /** Every connection ends at once. */
    DOWN,
    /** The recipient is refused for good (550). */
    REFUSING,
    /** The recipient is refused for now (451). */
    BUSY,
    /** The connection ends in the middle of the message: the server never has it. */
    DROPPING,
    /** The server has the message, and the connection ends before it can say so. */
    SILENT,
    /** The server has the message, and its answer does not come while anybody waits. */
    SLOW,
    /** Every answer takes a second: each in time, all together many times what one may take. */
    CRAWLING
  }

  private final ServerSocket door;
  private final int behind;
  private final AtomicInteger failures = new AtomicInteger();
  private volatile Manner manner = Manner.FINE;

  public FaultyLine(int port, int behind) {
    this.behind = behind;
    try {
      door = new ServerSocket(port, 50, InetAddress.getByName("127.0.0.1"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    start(this::accept);
  }

  public int port() {
    return door.getLocalPort();
  }

  public void behave(Manner wanted) {
    manner = wanted;
    failures.set(0);
  }

  public int failures() {
    return failures.get();
  }

  @Override
  public void close() {
    try {
      door.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void accept() {
    while (!door.isClosed()) {
      try {
        Socket caller = door.accept();
        if (manner == Manner.DOWN) {
          failures.incrementAndGet();
          caller.close();
        } else {
          Socket server = new Socket("127.0.0.1", behind);
          Call call = new Call(caller, server);
          start(call::ask);
          start(call::answer);
        }
      } catch (IOException closed) {
        // the next call may come, or the door is closed
      }
    }
  }

  private static void start(Runnable work) {
    Thread thread = new Thread(work, "faulty line");
    thread.setDaemon(true);
    thread.start();
  }

  private final class Call {
    private final Socket caller;
    private final Socket server;
    private boolean data;
    private volatile boolean mute;

    Call(Socket caller, Socket server) {
      this.caller = caller;
      this.server = server;
    }

    void ask() {
      try (caller;
          server) {
        BufferedReader in = reader(caller);
        for (String line = in.readLine(); line != null; line = in.readLine()) {
          if (manner == Manner.DOWN) {
            failures.incrementAndGet();
            return;
          }
          if (data) {
            if (manner == Manner.DROPPING) {
              failures.incrementAndGet();
              return;
            }
            data = !line.equals(".");
            mute = !data && (manner == Manner.SILENT || manner == Manner.SLOW);
            write(server, line);
            continue;
          }
          String said = line.toUpperCase(Locale.ROOT);
          if (said.startsWith("RCPT TO") && manner == Manner.REFUSING) {
            failures.incrementAndGet();
            write(caller, "550 5.1.1 no such person here");
            continue;
          }
          if (said.startsWith("RCPT TO") && manner == Manner.BUSY) {
            failures.incrementAndGet();
            write(caller, "451 4.3.0 come back later");
            continue;
          }
          data = said.equals("DATA");
          write(server, line);
        }
      } catch (IOException ended) {
        // so does the call
      }
    }

    void answer() {
      try {
        BufferedReader in = reader(server);
        for (String line = in.readLine(); line != null; line = in.readLine()) {
          if (mute) {
            failures.incrementAndGet();
            if (manner == Manner.SLOW) {
              continue;
            }
            caller.close();
            server.close();
            return;
          }
          crawl();
          write(caller, line);
        }
      } catch (IOException ended) {
        // so does the call
      }
    }

    /** Keeps an answer back until it is late or the line is better. */
    private void crawl() {
      try {
        for (int i = 0; i < 10 && manner == Manner.CRAWLING; i++) {
          failures.incrementAndGet();
          Thread.sleep(100);
        }
      } catch (InterruptedException stopped) {
        Thread.currentThread().interrupt();
      }
    }

    private static BufferedReader reader(Socket from) throws IOException {
      return new BufferedReader(
          new InputStreamReader(from.getInputStream(), StandardCharsets.ISO_8859_1));
    }

    private static void write(Socket to, String line) throws IOException {
      OutputStream out = to.getOutputStream();
      out.write((line + "\r\n").getBytes(StandardCharsets.ISO_8859_1));
      out.flush();
    }
  }
}

package org.lightledger.cli;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Client;
import org.lightledger.session.Contact;
import org.lightledger.session.Session;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Who is photographed. */
@Command(
    name = "client",
    description = "Who is photographed.",
    mixinStandardHelpOptions = true,
    synopsisSubcommandLabel = "add|list|show|export|erase")
final class ClientVerb implements Runnable {
  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  static CommandLine of(Services services) {
    return new CommandLine(new ClientVerb())
        .addSubcommand(new Add(services))
        .addSubcommand(new All(services))
        .addSubcommand(new Show(services))
        .addSubcommand(new ClientData.Export(services))
        .addSubcommand(new ClientData.Erase(services));
  }

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "expected one of add, list, show, export, erase, found none");
  }

  /** The client of a number. */
  static Client client(LedgerSession session, long id) {
    return session
        .clients()
        .find(id)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected the number of a client, found "
                        + id
                        + ", which the ledger does not have; \"client list\" lists them"));
  }

  private static Map<String, @Nullable Object> json(Client client, List<Session> sessions) {
    Client.Guardian guardian = client.guardian();
    return Json.fields()
        .put("clientId", client.id())
        .put("name", client.name())
        .put("calledName", client.calledName())
        .put("minor", client.minor())
        .put("email", client.contact().email())
        .put("phone", client.contact().phone())
        .put("guardianName", guardian == null ? null : guardian.name())
        .put("guardianEmail", guardian == null ? null : guardian.contact().email())
        .put("guardianPhone", guardian == null ? null : guardian.contact().phone())
        .put("sessionIds", sessions.stream().map(Session::id).toList())
        .map();
  }

  private static String text(Client client, List<Session> sessions) {
    return String.format(
        Locale.ROOT,
        "%4d  %s, called %s%s (%d sessions)%n",
        client.id(),
        client.name(),
        client.calledName(),
        client.minor() ? ", under age" : "",
        sessions.size());
  }

  /** Adds one. */
  @Command(name = "add", description = "Adds a client.")
  static final class Add extends Verb {
    @Parameters(paramLabel = "NAME", description = "The full name; it stays in the ledger.")
    private String name;

    @Option(
        names = "--called",
        paramLabel = "NAME",
        description = "How the client is addressed; the first word of the name if not given.")
    private @Nullable String called;

    @Option(names = "--email", paramLabel = "ADDRESS", defaultValue = "")
    private String email;

    @Option(names = "--phone", paramLabel = "NUMBER", defaultValue = "")
    private String phone;

    @Option(
        names = "--minor",
        description = "The client is under age; a guardian who can be reached is needed.")
    private boolean minor;

    @Option(names = "--guardian", paramLabel = "NAME", description = "Who answers for a minor.")
    private @Nullable String guardian;

    @Option(names = "--guardian-email", paramLabel = "ADDRESS", defaultValue = "")
    private String guardianEmail;

    @Option(names = "--guardian-phone", paramLabel = "NUMBER", defaultValue = "")
    private String guardianPhone;

    Add(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      Contact contact = named("--email, --phone", () -> Contact.parse(email, phone));
      Contact other =
          named(
              "--guardian-email, --guardian-phone",
              () -> Contact.parse(guardianEmail, guardianPhone));
      String who = guardian;
      Client client =
          new Client(
              0,
              name.strip(),
              called == null ? name.strip().split("\\s+")[0] : called.strip(),
              minor,
              contact,
              who == null ? null : new Client.Guardian(who.strip(), other),
              "",
              "");
      try (Ledger ledger = openOrMake()) {
        Client added = ledger.write(session -> client(session, session.clients().add(client)));
        print(() -> json(added, List.of()), () -> text(added, List.of()));
      }
      return 0;
    }
  }

  /** Lists them. */
  @Command(name = "list", description = "Lists the clients.")
  static final class All extends Verb {
    All(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        ledger.read(
            session -> {
              List<Client> all = session.clients().all();
              print(
                  () ->
                      all.stream()
                          .map(one -> json(one, session.sessions().ofClient(one.id())))
                          .toList(),
                  () ->
                      all.stream()
                          .map(one -> text(one, session.sessions().ofClient(one.id())))
                          .collect(Collectors.joining()));
              return all.size();
            });
      }
      return 0;
    }
  }

  /** Shows one. */
  @Command(name = "show", description = "Shows a client.")
  static final class Show extends Verb {
    @Parameters(paramLabel = "CLIENT", description = "Its number, as \"client list\" tells it.")
    private long id;

    Show(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        ledger.read(
            session -> {
              Client client = client(session, id);
              List<Session> sessions = session.sessions().ofClient(id);
              print(
                  () -> json(client, sessions),
                  () ->
                      text(client, sessions)
                          + sessions.stream()
                              .map(one -> SessionOutput.line(session, one))
                              .collect(Collectors.joining()));
              return id;
            });
      }
      return 0;
    }
  }
}

package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Session;
import org.lightledger.share.ReplyFile;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;
import org.lightledger.share.ShareTokens;
import org.lightledger.share.SharedPage;
import org.lightledger.store.LedgerSession;

/**
 * The owner's side of sharing: makes links and files, takes them back, shows what the client sees
 * and what came back.
 */
final class SharingRoutes {
  static final int PICTURE_WIDTH = 960;
  private static final double LONGEST_DAYS = 730;

  private final House house;
  private final Previews previews;
  private final SharePage sharePage;
  private final ShareReader reader;
  private final Supplier<String> address;
  private final ShareTokens tokens = new ShareTokens();

  SharingRoutes(
      House house,
      Previews previews,
      SharePage sharePage,
      ShareReader reader,
      Supplier<String> address) {
    this.house = house;
    this.previews = previews;
    this.sharePage = sharePage;
    this.reader = reader;
    this.address = address;
  }

  void register(RoutesConfig routes) {
    for (ShareSubject.Kind kind : ShareSubject.Kind.values()) {
      String base = "/" + kind.label() + "s/{id}";
      routes.post(base + "/shares", ctx -> create(ctx, kind));
      routes.post(base + "/shares/{share}/revoke", ctx -> revoke(ctx, kind));
      routes.get(base + "/preview", ctx -> preview(ctx, kind));
    }
    routes.get("/shortlists/{id}/file", this::plainFile);
    routes.get("/sessions/{id}/share", ctx -> ofSession(ctx, List.of()));
    routes.get("/shares/{share}/look", this::look);
    routes.get("/shares/{share}/file", this::file);
    routes.get("/shares/{share}/outfits/{picture}", this::outfit);
    routes.post("/shares/{share}/outfits/{picture}/remove", this::removeOutfit);
    routes.post("/shares/{share}/read", this::read);
    routes.get("/replies", ctx -> replies(ctx, List.of(), taken(ctx)));
    routes.post("/replies", this::take);
  }

  ShareSide side(LedgerSession session, ShareSubject subject) {
    return ShareSideViews.side(house, session, subject, address.get());
  }

  private static ShareSubject subject(Context ctx, LedgerSession session, ShareSubject.Kind kind) {
    long id =
        kind == ShareSubject.Kind.SESSION
            ? SessionPages.find(ctx, session).id()
            : ShortlistRoutes.find(ctx, session).id();
    return new ShareSubject(kind, id);
  }

  private void ofSession(Context ctx, List<FieldProblem> problems) {
    ShareSide.OfSession page =
        house
            .ledger()
            .read(
                session -> {
                  Session booked = SessionPages.find(ctx, session);
                  return new ShareSide.OfSession(
                      SessionWords.title(SessionPages.client(session, booked.clientId()), booked),
                      side(session, ShareSubject.session(booked.id())),
                      problems);
                });
    house.show(ctx, "sessionshare", page.title(), Frame.Room.SESSIONS, page);
  }

  private void create(Context ctx, ShareSubject.Kind kind) {
    Fields fields = new Fields(ctx::formParams);
    Double days = fields.number("days", "Days", 1, LONGEST_DAYS, " days");
    String message = fields.text("message", "Message", ShareTerms.LONGEST_MESSAGE);
    boolean session = kind == ShareSubject.Kind.SESSION;
    boolean plan = session && fields.ticked("plan");
    boolean questions = session && fields.ticked("questions");
    if (session && !plan && !questions) {
      fields.problem("plan", "Shows", "expected the plan, the questions or both, found neither");
    }
    Long clientId = client(fields);
    fields.check();
    Instant now = house.clock().instant();
    @Nullable Instant expires = days == null ? null : now.plus(Duration.ofDays(days.longValue()));
    ShareTerms terms =
        new ShareTerms(
            fields.raw("as").equals("file"),
            clientId,
            message,
            fields.ticked("exact"),
            plan,
            questions,
            expires);
    ShareSubject made =
        house
            .ledger()
            .write(
                ledger -> {
                  ShareSubject subject = subject(ctx, ledger, kind);
                  if (clientId != null) {
                    SessionPages.client(ledger, clientId);
                  }
                  ledger.shares().create(subject, terms, tokens.next(), tokens.keys(), now);
                  return subject;
                });
    ctx.redirect(page(made), HttpStatus.SEE_OTHER);
  }

  private static @Nullable Long client(Fields fields) {
    String text = fields.raw("client");
    try {
      return text.isEmpty() ? null : Long.valueOf(text);
    } catch (NumberFormatException e) {
      fields.problem("client", "For", "expected a client, found " + Fields.quoted(text));
      return null;
    }
  }

  private static String page(ShareSubject subject) {
    return subject.isSession()
        ? "/sessions/" + subject.id() + "/share"
        : "/shortlists/" + subject.id() + "#share";
  }

  private void revoke(Context ctx, ShareSubject.Kind kind) {
    long shareId = House.id(ctx, "share");
    ShareSubject subject =
        house
            .ledger()
            .write(
                session -> {
                  ShareSubject found = subject(ctx, session, kind);
                  if (!share(ctx, session).subject().equals(found)) {
                    throw PageProblem.notFound("There is no such share of this.");
                  }
                  session.shares().revoke(shareId, house.clock().instant());
                  return found;
                });
    ctx.redirect(page(subject), HttpStatus.SEE_OTHER);
  }

  private static Share share(Context ctx, LedgerSession session) {
    return session
        .shares()
        .find(House.id(ctx, "share"))
        .orElseThrow(() -> PageProblem.notFound("There is no share with this number."));
  }

  /** What a client would see, before anything is shared. */
  private void preview(Context ctx, ShareSubject.Kind kind) {
    show(ctx, unshared(ctx, kind));
  }

  private SharedPage unshared(Context ctx, ShareSubject.Kind kind) {
    boolean exact = "yes".equals(ctx.queryParam("exact"));
    ShareTerms terms = new ShareTerms(true, null, "", exact, true, true, null);
    return house
        .ledger()
        .read(
            session ->
                reader.view(
                    session, subject(ctx, session, kind), tokens.keys(), terms, Returned.NOTHING))
        .orElseThrow(() -> PageProblem.notFound("There is nothing to show."));
  }

  private void look(Context ctx) {
    show(
        ctx,
        house
            .ledger()
            .read(session -> reader.view(session, share(ctx, session)))
            .orElseThrow(() -> PageProblem.notFound("There is nothing to show.")));
  }

  private void show(Context ctx, SharedPage view) {
    ctx.header("Content-Security-Policy", sharePage.policy());
    ctx.html(sharePage.look(view, this::picture));
  }

  /** A file that shows and takes no answers, for there is no share to which they belong. */
  private void plainFile(Context ctx) {
    SharedPage view = unshared(ctx, ShareSubject.Kind.SHORTLIST);
    send(
        ctx,
        view.title(),
        sharePage.file(
            view, this::picture, SharePage.answering(ShareView.Answering.Way.CLOSED, "")));
  }

  private void file(Context ctx) {
    Share share = house.ledger().read(session -> share(ctx, session));
    String title = house.ledger().read(session -> ShareSideViews.title(session, share));
    send(ctx, title, ShareFile.html(house.ledger(), reader, sharePage, previews, share.id()));
  }

  private static void send(Context ctx, String title, String html) {
    ctx.header("Content-Disposition", "attachment; filename=\"" + ShareFile.name(title) + "\"");
    ctx.contentType("text/html; charset=utf-8").result(html.getBytes(StandardCharsets.UTF_8));
  }

  private byte @Nullable [] picture(long shotId) {
    return previews.jpeg(shotId, PICTURE_WIDTH).orElse(null);
  }

  private void outfit(Context ctx) {
    Optional<byte[]> jpeg =
        house
            .ledger()
            .read(
                session ->
                    session.replies().outfit(House.id(ctx, "share"), House.id(ctx, "picture")));
    if (jpeg.isEmpty()) {
      throw PageProblem.notFound("There is no such picture.");
    }
    Previews.send(ctx, jpeg, "no-store");
  }

  private void removeOutfit(Context ctx) {
    Share share = house.ledger().read(session -> share(ctx, session));
    house
        .ledger()
        .change(session -> session.replies().removeOutfit(share.id(), House.id(ctx, "picture")));
    ctx.redirect(page(share.subject()), HttpStatus.SEE_OTHER);
  }

  private void read(Context ctx) {
    Share share =
        house
            .ledger()
            .write(
                session -> {
                  Share found = share(ctx, session);
                  session.shares().read(found.id(), house.clock().instant());
                  return found;
                });
    boolean fromList = "replies".equals(ctx.formParam("back"));
    ctx.redirect(fromList ? "/replies" : page(share.subject()), HttpStatus.SEE_OTHER);
  }

  private void replies(Context ctx, List<FieldProblem> problems, String taken) {
    ShareSide.Replies page =
        house
            .ledger()
            .read(
                session ->
                    new ShareSide.Replies(
                        session.shares().replied().stream()
                            .map(
                                share -> ShareSideViews.given(house, session, share, address.get()))
                            .toList(),
                        problems,
                        taken));
    house.show(ctx, "replies", "Replies from clients", Frame.Room.REPLIES, page);
  }

  private static String taken(Context ctx) {
    return ctx.queryParam("taken") == null ? "" : "The reply is taken in.";
  }

  /** Takes in a file that a client returned. */
  private void take(Context ctx) {
    UploadedFile sent = ctx.uploadedFile("reply");
    try {
      if (sent == null || sent.size() == 0) {
        throw new IllegalArgumentException("expected the file that a client sent, found none");
      }
      if (sent.size() > ReplyFile.MOST_BYTES) {
        throw new IllegalArgumentException(
            "expected a client's reply of at most "
                + ReplyFile.MOST_BYTES / 1024
                + " kB, found "
                + sent.size() / 1024
                + " kB; choose the file whose name starts with \"reply\"");
      }
      String content = text(sent);
      Instant now = house.clock().instant();
      house.ledger().change(session -> ReplyDesk.takeFile(session, content, now));
    } catch (IllegalArgumentException e) {
      ctx.status(422);
      replies(ctx, List.of(new FieldProblem("reply", "Reply", String.valueOf(e.getMessage()))), "");
      return;
    }
    ctx.redirect("/replies?taken=1", HttpStatus.SEE_OTHER);
  }

  private static String text(UploadedFile sent) {
    try (InputStream in = sent.content()) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

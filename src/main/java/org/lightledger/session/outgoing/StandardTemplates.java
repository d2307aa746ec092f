package org.lightledger.session.outgoing;

import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import org.lightledger.session.MessageKind;

/** The wording that a ledger starts with: our own, and the owner's to change. */
public final class StandardTemplates {
  /** What a client brings when the owner has not said anything else. */
  public static final String BRING =
      """
      - the outfits on hangers, ironed
      - comfortable shoes for the way between the stops
      - water, and a jacket for the end of the day
      - whatever else should be in the pictures""";

  private static final Map<MessageKind, Template> ALL = new EnumMap<>(MessageKind.class);

  static {
    put(
        MessageKind.QUESTIONS,
        "A few questions before {{whose session}} on {{date}}",
        """
        Hello {{to}},

        {{whose session}} is on {{date}}, and we are looking forward to it. So that we can choose the places and the hour that suit {{whom}}, please tell us a little:

        {{questions}}

        {{how to answer}}

        Short answers are fine, and so is "surprise me".

        What many people ask us is answered here: {{common questions}}

        Warm regards
        {{studio}}
        {{studio phone}}""");
    put(
        MessageKind.PLAN,
        "Where and when: {{whose session}} on {{date}}",
        """
        Hello {{to}},

        We meet at {{meeting time}} on {{date}}.
        Where: {{meeting place}}
        {{meeting point}}

        From there we go together:

        {{stops}}

        We end at about {{end time}}. All times are {{time zone}}.

        There is room for up to {{outfit limit}} in {{whose session}}. Please bring:

        {{what to bring}}

        {{how to see it}}

        Does any of this not suit you? Tell us, and we will change it.

        {{safety}}

        See you there
        {{studio}}
        {{studio phone}}""");
    put(
        MessageKind.REMINDER,
        "Soon: {{whose session}} on {{date}} at {{meeting time}}",
        """
        Hello {{to}},

        It is nearly time for {{whose session}}! We meet on {{date}} at {{meeting time}} ({{time zone}}).
        Where: {{meeting place}}
        {{meeting point}}

        Please bring up to {{outfit limit}}, and leave a little early: the light does not wait.

        Do you have any questions? Reply to this message, call {{studio phone}}, or look here first: {{common questions}}

        {{safety}}

        See you soon
        {{studio}}""");
  }

  private StandardTemplates() {}

  private static void put(MessageKind kind, String subject, String body) {
    ALL.put(kind, new Template(kind, subject, body));
  }

  /**
   * The standard wording.
   *
   * @param kind of which message
   * @return the template
   */
  public static Template of(MessageKind kind) {
    return Objects.requireNonNull(ALL.get(kind), "each kind has a wording");
  }
}

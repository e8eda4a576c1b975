using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Host;

/// <summary>
/// Ids as MQTT topics. `+` and `#` are wildcards, NUL and other control characters are not allowed (MQTT 3.1.1, 1.5.3 and 4.7.1): they are written
/// as `%` and two digits for each byte, as in addresses of the web (RFC 3986, 2.1), and `%` itself, too, so that no two names become one. `/` stays what it is in an id: the step to a lower level.
/// </summary>
internal static class MqttTopic
{
    /// <summary>What every topic begins with.</summary>
    public const string Root = "lampblack/";

    private const string Set = "/set";

    /// <summary>Where an id is published.</summary>
    /// <param name="id">The id.</param>
    public static string Of(string id)
    {
        StringBuilder topic = new(Root);
        foreach (Rune rune in id.EnumerateRunes())
        {
            // A half surrogate comes as U+FFFD, which is allowed.
            if (rune.Value is '+' or '#' or '%' || Rune.GetUnicodeCategory(rune) == UnicodeCategory.Control || (rune.Value & 0xFFFE) == 0xFFFE)
            {
                byte[] bytes = Encoding.UTF8.GetBytes(rune.ToString());
                topic.AppendJoin(string.Empty, bytes.Select(value => "%" + value.ToString("X2", CultureInfo.InvariantCulture)));
            }
            else
            {
                topic.Append(rune.ToString());
            }
        }

        return topic.ToString();
    }

    /// <summary>Where a lamp's level is taken from.</summary>
    /// <param name="id">The lamp's id.</param>
    public static string SetOf(string id) => Of(id) + Set;

    /// <summary>Lamps by the topics that set them.</summary>
    /// <param name="lamps">Their ids.</param>
    public static Dictionary<string, string> Settable(IEnumerable<string> lamps) => lamps.Distinct().ToDictionary(SetOf);
}

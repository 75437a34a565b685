using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Records;

/// <summary>
/// The text of a signed record: JSON in UTF-8 without a byte-order mark, members in a fixed order, no white space between
/// them, whole numbers only. Equal records give equal texts; a text that was signed is never written again.
/// </summary>
public static class SignedRecordText
{
    private const int FirstWithFindings = 2;
    private const int FirstWithCalibration = 3;
    private const string Findings = "findings";
    private const string Calibration = "calibration";

    /// <summary>What later formats brought, and which.</summary>
    private static readonly Dictionary<string, int> Newer = new()
    {
        [Findings] = FirstWithFindings,
        ["trains"] = FirstWithFindings,
        [Calibration] = FirstWithCalibration,
        ["lamps"] = FirstWithCalibration,
    };

    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        // The text is kept as text and shown through an encoding page; nothing but JSON's own escapes is needed.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        RespectRequiredConstructorParameters = true,
        RespectNullableAnnotations = true,
        NumberHandling = JsonNumberHandling.Strict,
        TypeInfoResolver = new DefaultJsonTypeInfoResolver
        {
            Modifiers = { OnlyWhatItsFormatHas, OnlyWhatFindingsSay },
        },
    };

    /// <summary>Writes a record.</summary>
    /// <param name="record">The record.</param>
    /// <returns>Its text.</returns>
    public static string Write(SignedRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return JsonSerializer.Serialize(record, Options);
    }

    /// <summary>Reads a record of any format up to <see cref="SignedRecord.NewestFormat"/>.</summary>
    /// <param name="text">The text as it was signed.</param>
    /// <returns>The record.</returns>
    /// <exception cref="FormatException">The text is no record, damaged, or of a newer format; the message says what to do.</exception>
    public static SignedRecord Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        try
        {
            var bytes = Encoding.UTF8.GetBytes(text);
            CheckFormat(bytes);
            return JsonSerializer.Deserialize<SignedRecord>(bytes, Options) ?? throw new JsonException("it is empty");
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            // The second is what the library says of a text with half of a surrogate pair.
            throw new FormatException(
                $"A signed record cannot be read: {e.Message} The text itself is kept in the journal as it was signed; "
                    + "check the journal with 'pupilbridge journal verify'.",
                e
            );
        }
    }

    /// <summary>The SHA-256 (FIPS 180-4) of a record's text in UTF-8.</summary>
    /// <param name="text">The text, exactly as signed.</param>
    /// <returns>Sixty-four lower-case hexadecimal digits.</returns>
    public static string Digest(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
    }

    // A record of an older format that was read is written as it was: without what later ones brought.
    private static void OnlyWhatItsFormatHas(JsonTypeInfo type)
    {
        if (type.Type != typeof(SignedRecord))
            return;
        foreach (var property in type.Properties)
        {
            if (Newer.TryGetValue(property.Name, out var first))
                property.ShouldSerialize = (record, _) => ((SignedRecord)record).FormatVersion >= first;
        }
    }

    // Some fifty findings stand in a record, most of them short; an entry of the journal has room for so much.
    private static void OnlyWhatFindingsSay(JsonTypeInfo type)
    {
        if (type.Type != typeof(RecordFinding))
            return;
        foreach (var property in type.Properties)
            property.ShouldSerialize = static (_, value) => value is not (null or "" or ValueList<string> { Count: 0 });
    }

    // It is looked at before the record is made, since a newer format may have what this program cannot make a record of; member by
    // member, since records are read by the hundred thousand and a whole document would be made for three of them.
    private static void CheckFormat(ReadOnlySpan<byte> text)
    {
        var reader = new Utf8JsonReader(text);
        var (name, version, hasFindings, hasCalibration) = ((string?)null, 0, false, false);
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            throw NoRecord();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var (isFormat, isVersion) = (reader.ValueTextEquals("format"), reader.ValueTextEquals("formatVersion"));
            hasFindings |= reader.ValueTextEquals(Findings);
            var isCalibration = reader.ValueTextEquals(Calibration);
            reader.Read();
            hasCalibration |= isCalibration && reader.TokenType == JsonTokenType.StartObject;
            if (isFormat)
                name = reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
            else if (isVersion)
                version = reader.TokenType == JsonTokenType.Number && reader.TryGetInt32(out var number) ? number : 0;
            reader.Skip();
        }

        if (name != SignedRecord.FormatName || version < 1)
            throw NoRecord();
        if (version > SignedRecord.NewestFormat)
        {
            throw new FormatException(
                $"A signed record has format {version}, and this program reads up to {SignedRecord.NewestFormat}. Install the "
                    + "version that wrote it, or a later one; nothing was changed."
            );
        }

        if (version >= FirstWithFindings && !hasFindings)
            throw new JsonException("it has no findings, which its format has.");
        if (version >= FirstWithCalibration && !hasCalibration)
            throw new JsonException("it does not say how its sizes were calibrated, which its format does.");
    }

    private static JsonException NoRecord() => new("it is no record of this program.");
}

using System.Text;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Sending;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;

namespace PupilBridge.Fuzz.Importing;

/// <summary>Documents in JSON that are read back: signed records, certificates, a server's answers.</summary>
internal static class DocumentBodies
{
    /// <summary>Records of every format, as they were signed once.</summary>
    public static IFuzzTarget Records() =>
        new BodyTarget("record", Golden(), body => ReadBack(body, SignedRecordText.Read, SignedRecordText.Write));

    /// <summary>Certificates; those to begin with are read from the records' own words as well, so that much of them is none.</summary>
    public static IFuzzTarget Certificates() =>
        new BodyTarget(
            "certificate",
            CertificateSeeds.All,
            body => ReadBack(body, CertificateText.Read, CertificateText.Write)
        );

    /// <summary>What a server answers to a record: any bytes, under any code, which the body's length chooses.</summary>
    public static IFuzzTarget Answers() =>
        new BodyTarget(
            "answer",
            [
                """{"resourceType":"Bundle","type":"transaction-response","entry":[{"response":{"status":"201 Created","location":"DiagnosticReport/7/_history/1"}},{"response":{"status":"200"}}]}"""u8.ToArray(),
                """{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"invalid","diagnostics":"no such patient"},{"details":{"text":"see above"}}]}"""u8.ToArray(),
            ],
            static body =>
            {
                int[] codes = [200, 201, 302, 400, 401, 404, 409, 412, 422, 429, 500, 503, 100, 999];
                var answer = new ServerAnswer(codes[body.Length % codes.Length], Encoding.UTF8.GetString(body), null);
                var verdict = AnswerJudge.OfTransaction(answer, body.Length % 3);
                var words = $"{verdict}";
                if (verdict is Verdict.Stored && answer.Code is < 200 or > 299)
                    throw new Finding("A record counts as stored though the server did not say so", words);
                var signature = new Signature();
                signature.Add(verdict.GetType().Name.GetHashCode(StringComparison.Ordinal) & 0xFF);
                signature.Bucket(words.Length);
                return signature.Bits;
            }
        );

    /// <summary>A document is refused by <see cref="FormatException"/>, or read; and what was read is written and read again as the same.</summary>
    private static ulong ReadBack<T>(ReadOnlySpan<byte> body, Func<string, T> read, Func<T, string> write)
    {
        var text = Encoding.UTF8.GetString(body);
        var signature = new Signature();
        try
        {
            var written = write(read(text));
            if (write(read(written)) != written)
                throw new Finding(
                    "A document that was read is not the same after it was written and read again",
                    Readable.Of(body)
                );
            signature.Add(1);
            signature.Bucket(written.Length);
        }
        catch (FormatException refused)
        {
            // The member that is named is the behaviour; places and values in the message are not.
            var about = refused.Message.AsSpan(0, Math.Min(refused.Message.Length, 160));
            foreach (var c in about)
            {
                if (char.IsAsciiLetter(c) || c is '$' or '.')
                    signature.Add(c);
            }
        }

        return signature.Bits;
    }

    private static IEnumerable<byte[]> Golden() =>
        Directory
            .EnumerateFiles(
                Repository.File("tests/PupilBridge.Exams.Tests/Records/Golden"),
                "*.json",
                SearchOption.AllDirectories
            )
            .Order(StringComparer.Ordinal)
            .Select(File.ReadAllBytes)
            .Where(bytes => bytes.Length < 24_000)
            .Take(12);
}

using CoatScan.Findings;
using CoatScan.Storage;

namespace CoatScan.StorageTests;

public class PageTokenTests
{
    private static readonly DateTimeOffset Now = TestFindings.Noon;
    private static readonly PageToken Token = new(Now.UtcTicks - 1, "some-Id_7");

    [Fact]
    public void Read_written_token_equals_it()
    {
        Assert.Equal(Token, PageToken.Read(Token.Write(Now), Now));
        Assert.Equal(Token, PageToken.Read(Token.Write(Now), Now.AddDays(3)));
    }

    [Fact]
    public void Read_longest_id_comes_back()
    {
        var token = new PageToken(1, new string('x', FindingName.MaximumIdLength));

        Assert.Equal(token, PageToken.Read(token.Write(Now), Now));
    }

    [Fact]
    public void Read_older_than_three_days_is_refused_and_says_so()
    {
        var error = Refused(Token.Write(Now), Now.AddDays(3).AddTicks(1));

        Assert.Contains("older than 3 days", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_from_the_future_is_refused()
    {
        Assert.Equal(Token, PageToken.Read(Token.Write(Now.AddMinutes(5)), Now));
        Refused(Token.Write(Now.AddMinutes(6)), Now);
    }

    [Theory]
    [InlineData("x")]
    [InlineData("  ")]
    [InlineData("not base64!")]
    [InlineData("AQ")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    public void Read_made_up_token_is_refused(string token) => Refused(token, Now);

    [Fact]
    public void Read_far_too_long_token_is_refused() => Refused(new string('A', 100_000), Now);

    [Fact]
    public void Read_token_with_any_one_character_changed_is_refused()
    {
        var token = Token.Write(Now);
        for (var i = 0; i < token.Length; i++)
        {
            var changed = token.ToCharArray();
            changed[i] = changed[i] == 'B' ? 'C' : 'B';
            Refused(new string(changed), Now);
        }
    }

    [Fact]
    public void Read_cut_token_is_refused()
    {
        var token = Token.Write(Now);
        for (var length = 1; length < token.Length; length++)
        {
            Refused(token[..length], Now);
        }
    }

    private static CoatScanException Refused(string token, DateTimeOffset now)
    {
        var error = Assert.Throws<CoatScanException>(() => PageToken.Read(token, now));
        Assert.Equal(ErrorReason.FieldInvalid, error.Reason);
        Assert.Equal("page_token", error.Field);
        return error;
    }
}

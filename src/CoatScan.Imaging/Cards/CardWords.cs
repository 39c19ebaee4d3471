namespace CoatScan.Imaging.Cards;

/// <summary>Says a text of the card in the language of its reader.</summary>
/// <param name="english">The text in English, with blanks as in <see cref="string.Format(string, object[])"/>.</param>
/// <param name="values">What fills them.</param>
public delegate string CardWords(string english, params object[] values);
